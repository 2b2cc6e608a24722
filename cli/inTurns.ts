import { setImmediate as nextTurn } from "node:timers/promises";

/** So long at most without a look at signals and messages. */
const TURN_MS = 15;

/** Does something step by step, in turns with everything else that this thread has to see to. */
export async function inTurns<Step, Result>(
  steps: Generator<Step, Result>,
  onStep: (step: Step) => void = () => {},
): Promise<Result> {
  for (let since = performance.now(); ; ) {
    const step = steps.next();
    if (step.done) return step.value;
    onStep(step.value);
    if (performance.now() - since < TURN_MS) continue;
    await nextTurn();
    since = performance.now();
  }
}
