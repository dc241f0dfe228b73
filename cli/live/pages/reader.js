// The page to read only.

import { announceReleases, soundButton } from "./announce.js";
import { showBoxes } from "./boxes.js";
import { find } from "./dom.js";
import { showConnection } from "./link.js";
import { showRecord } from "./record.js";
import { showScore } from "./score.js";
import { first } from "./state.js";
import { showTrouble } from "./trouble.js";

first();
showScore();
showBoxes(["home", "away"]);
showRecord();
announceReleases();
soundButton(find("#sound"));
showTrouble();
showConnection();
