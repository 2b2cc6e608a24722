import { addCheck } from "./addCheck.js";
import { addCompare } from "./addCompare.js";
import { addCompletion } from "./addCompletion.js";
import { addDemo } from "./addDemo.js";
import { addHistory } from "./addHistory.js";
import { addKeyboard } from "./addKeyboard.js";
import { addMeasure } from "./addMeasure.js";
import { addPage } from "./addPage.js";
import { addStringing } from "./addStringing.js";
import { addSympathetic } from "./addSympathetic.js";
import { addTap } from "./addTap.js";
import { addTrompette } from "./addTrompette.js";
import { addTunings } from "./addTunings.js";
import { addWheel } from "./addWheel.js";
import type { AddCommand } from "./runCommands.js";

/** In the order in which the help lists them. */
export const allCommands: readonly AddCommand[] = [
  addMeasure,
  addCompare,
  addWheel,
  addTrompette,
  addKeyboard,
  addSympathetic,
  addTap,
  addCheck,
  addStringing,
  addHistory,
  addPage,
  addTunings,
  addDemo,
  addCompletion,
];
