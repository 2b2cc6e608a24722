import {
  AnalysisError,
  documentJson,
  measureTake,
  readStringing,
  readSympathetic,
  readTaps,
  readTrompette,
  type StringTarget,
  stringingCsv,
  stringingDocument,
  sympatheticCsv,
  sympatheticDocument,
  tapCsv,
  tapDocument,
  trompetteCsv,
  trompetteDocument,
  wheelCsv,
  wheelDocument,
} from "../../../src/index.js";
import type { ReportPage } from "../../../src/pages.js";
import { type ChosenTargets, chooseTargets } from "./chooseTargets.js";
import { drawPage, type loadPages } from "./drawPage.js";
import type { NamedSound, Reply, Request } from "./Messages.js";
import { openSound } from "./openSound.js";
import { toolVersion } from "./toolVersion.js";

type Pages = Awaited<ReturnType<typeof loadPages>>;

/** A document of one of the commands, its table, and its page. */
interface Made {
  readonly document: object;
  readonly csv: string;
  page(pages: Pages): ReportPage;
}

type Asked = Extract<Request, { kind: "more" }>;

/** The other readings of the set-up, each with the settings that its command would take. */
export async function readMore(request: Asked, tell: (reply: Reply) => void): Promise<void> {
  const chosen = chooseTargets(request.targets);
  const onProgress = (share: number) => tell({ kind: "progress", share });
  const { document, csv, page } = made(request, chosen, onProgress);
  tell({ kind: "made", json: documentJson(document), csv });
  tell({ kind: "drawn", page: await drawPage(page) });
}

function made(request: Asked, chosen: ChosenTargets, onProgress: (share: number) => void): Made {
  const { sound } = request;
  if (request.what === "stringing" || sound === null) return stringing(chosen);
  switch (request.what) {
    case "wheel":
      return wheel(sound, chosen, onProgress);
    case "trompette":
      return trompette(sound, request.string, chosen, onProgress);
    case "sympathetic":
      return sympathetic(sound, chosen, onProgress);
    case "tap": {
      const reading = readTaps(openSound(sound), { onProgress });
      const takes = [{ file: sound.name, name: sound.name, reading }];
      const document = tapDocument({ toolVersion, takes, failed: [], hasOther: false, bowed: null });
      return { document, csv: tapCsv(document), page: (pages) => pages.tapPage(document) };
    }
  }
}

function wheel(sound: NamedSound, chosen: ChosenTargets, onProgress: (share: number) => void): Made {
  const { instrument, targets } = chosen;
  const { anchor: _, lowEdgeHz, ...settings } = chosen.settings;
  const reading = measureTake(openSound(sound), { targets, a4Hz: settings.a4Hz, lowEdgeHz, onProgress });
  const document = wheelDocument({
    toolVersion,
    instrument: instrument?.name ?? null,
    settings: { ...settings, turnsPerSecond: null },
    file: sound.name,
    reading,
  });
  return { document, csv: wheelCsv(document), page: (pages) => pages.wheelPage(document) };
}

function trompette(
  sound: NamedSound,
  name: string | null,
  { instrument, targets, settings }: ChosenTargets,
  onProgress: (share: number) => void,
): Made {
  const named = ({ name, targetHz }: StringTarget) => ({ name, frequencyHz: targetHz });
  const string = targets?.find((one) => one.name === name) ?? null;
  const reading = readTrompette(openSound(sound), {
    string: string === null ? null : named(string),
    others: (targets ?? [])
      .filter((one) => one !== string && (one.role === "drone" || one.role === "trompette"))
      .map(named),
    onProgress,
  });
  const { a4Hz, tonic, temperament, tuning, capo } = settings;
  const document = trompetteDocument({
    toolVersion,
    instrument: instrument?.name ?? null,
    settings: { a4Hz, tonic, temperament, tuning, capo, turnsPerSecond: null },
    file: sound.name,
    reading,
  });
  return { document, csv: trompetteCsv(document), page: (pages) => pages.trompettePage(document) };
}

function sympathetic(
  sound: NamedSound,
  { instrument, targets: all, settings }: ChosenTargets,
  onProgress: (share: number) => void,
): Made {
  const { a4Hz, tonic, temperament, tuning, capo, order } = settings;
  const own = all?.filter(({ role }) => role === "sympathetic") ?? [];
  // An instrument that names none: any of its strings may have been plucked.
  const targets = own.length > 0 ? own : all;
  const reading = readSympathetic(openSound(sound), { targets, a4Hz, onProgress });
  const document = sympatheticDocument({
    toolVersion,
    instrument: instrument?.name ?? null,
    settings: { a4Hz, tonic, temperament, tuning, capo, order },
    file: sound.name,
    reading,
  });
  return { document, csv: sympatheticCsv(document), page: (pages) => pages.sympatheticPage(document) };
}

function stringing({ instrument, targets, settings }: ChosenTargets): Made {
  // The page asks for it with an instrument only.
  if (instrument === null || targets === null) throw new AnalysisError("length-unknown", {});
  const document = stringingDocument({
    toolVersion,
    instrument: instrument.name,
    against: null,
    settings: {
      a4Hz: settings.a4Hz,
      tonic: settings.tonic,
      tensionNewton: null,
      otherLengthMm: null,
      retune: {},
    },
    reading: readStringing({ instrument, targets }, null, null),
  });
  return { document, csv: stringingCsv(document), page: (pages) => pages.stringingPage(document, []) };
}
