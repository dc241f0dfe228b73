// A scoreboard in the terminal: node scoreboard.mjs [COMMAND…]
// COMMAND is how rinkfold is started, `rinkfold` if nothing is given.

import process from 'node:process'
import { Refused, Rinkfold } from './rinkfold.mjs'

const happened = [
  { kind: 'penalty_assessed', period: 1, clock: '9:15', team: 'home', player: '12', parts: ['minor'], infraction: 'tripping' },
  { kind: 'faceoff', period: 1, clock: '9:15' },
  { kind: 'goal', period: 1, clock: '8:75', team: 'away', scorer: '17' }, // a slip: no board shows 8:75
  { kind: 'goal', period: 1, clock: '8:50', team: 'away', scorer: '17', assists: ['16'] },
  { kind: 'penalty_assessed', period: 1, clock: '7:30', team: 'away', player: '5', parts: ['minor', 'misconduct'] },
  { kind: 'faceoff', period: 1, clock: '7:30' }
]

const board = ({ at, score, strength, box }) => {
  const sitting = [...box.home.map(one => ['home', one]), ...box.away.map(one => ['away', one])]
    .map(([team, one]) => `${team} ${one.sits ?? 'team-mate'} ${one.remaining}`)
  return `${at.period} ${at.clock}  ${score.home}-${score.away}  ${strength.label}  ${sitting.join(', ')}`.trimEnd()
}

const command = process.argv.slice(2)
const game = new Rinkfold(command.length ? { command } : {})
const giveUp = error => {
  console.error(`rinkfold could not be asked: ${error.message}`)
  process.exit(2)
}
const opened = await game.send({
  kind: 'game_opened',
  format: 1,
  game: 'larks-otters',
  ruleset: 'youth-12u',
  home: { name: 'Larks' },
  away: { name: 'Otters' }
}).catch(giveUp)
console.log(opened.effect)
console.log(`Rules: ${opened.ruleset.name}. ${opened.ruleset.note}`)

for (const event of happened) {
  try {
    const { effect, changes } = await game.send(event)
    console.log(effect)
    for (const { change, team, who, injured, because } of changes) {
      if (change !== 'returned') continue
      const name = `${team} ${who ?? 'team-mate'}${injured ? ' (recorded as injured)' : ''}`
      console.log(`  time is over for ${name}: ${because.rule} (${because.source})`)
    }
  } catch (error) {
    if (!(error instanceof Refused)) throw error
    console.log(`not taken in: ${error.message}`)
  }
}

console.log(board(await game.ask('now')))
const { releases } = await game.ask('forecast')
for (const { team, sits, out, how } of releases) {
  console.log(`next out: ${team} ${sits ?? 'team-mate'}, ${out ? `${out.period} ${out.clock}` : how}`)
}
process.exitCode = await game.end()
