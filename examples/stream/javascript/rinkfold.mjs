// A client of `rinkfold stream` for Node, in one file and without packages.
//
//   const game = new Rinkfold()                          // or new Rinkfold({ log: 'game.jsonl' })
//   const answer = await game.send({ kind: 'goal', … })  // throws Refused when the line is not right
//   const { box } = await game.ask('now')
//   await game.end()

import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { createInterface } from 'node:readline'

/** A line that was not right; nothing of it was taken in. `problems` says what to do. */
export class Refused extends Error {
  constructor (problems) {
    super(problems.map(one => `${one.field ? one.field + ': ' : ''}${one.message} ${one.fix}`.trim()).join('\n'))
    this.problems = problems
  }
}

export class Rinkfold {
  /** @param {{ command?: string[], log?: string }} options */
  constructor ({ command = ['rinkfold'], log } = {}) {
    const [program, ...more] = command
    const args = [...more, 'stream', ...(log ? ['--log', log] : [])]
    this.waiting = [] // one for each line sent and not yet answered, oldest first
    this.program = spawn(program, args, { stdio: ['pipe', 'pipe', 'inherit'] })
    this.ended = new Promise(resolve => {
      this.program.on('error', error => { this.fail(error); resolve(-1) })
      this.program.on('close', code => { this.fail(new Error(`rinkfold ended with ${code}`)); resolve(code) })
    })
    this.program.stdin.on('error', () => {}) // it has gone: 'close' tells everybody who waits
    createInterface({ input: this.program.stdout }).on('line', line => this.hear(JSON.parse(line)))
  }

  /** One answer a line, in order: it belongs to whoever has waited longest. */
  hear (answer) {
    const { resolve, reject } = this.waiting.shift()
    answer.problems ? reject(new Refused(answer.problems)) : resolve(answer)
  }

  fail (error) {
    this.error = error
    for (const { reject } of this.waiting.splice(0)) reject(error)
  }

  /** Send one event or question; gives the answer to it. */
  async send (line) {
    if (this.error) throw this.error
    const answer = new Promise((resolve, reject) => this.waiting.push({ resolve, reject }))
    answer.catch(() => {}) // whoever awaits it hears of it; nobody else needs to
    // false: the pipe is full, rinkfold is busy. Wait instead of piling up.
    if (!this.program.stdin.write(JSON.stringify(line) + '\n')) {
      await Promise.race([once(this.program.stdin, 'drain'), this.ended])
    }
    return answer
  }

  ask (what, at) {
    return this.send(at ? { ask: what, at } : { ask: what })
  }

  /** No more lines; gives the exit code when all answers have come. */
  end () {
    this.program.stdin.end()
    return this.ended
  }
}
