#!/usr/bin/env node
import { watch } from "./watch.js";
import { poolSetup, workerSetup } from "./watcher.js";

// The work is one long calculation, in which no signal and no other program's output would be heard: a second
// thread does it, and this one watches.
if (poolSetup !== null) (await import("./poolWorker.js")).poolWorker(poolSetup);
else if (workerSetup === null) watch(new URL(import.meta.url));
else await (await import("./work.js")).work(workerSetup);
