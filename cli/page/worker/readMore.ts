import {
  documentJson,
  type Instrument,
  measureOptionsOf,
  measureTake,
  readInstrument,
  readSympathetic,
  readTrompette,
  stringingCsv,
  stringingOf,
  sympatheticCsv,
  sympatheticDocument,
  type TakeTargets,
  tapCsv,
  targetNames,
  trompetteCsv,
  trompetteDocument,
  trompetteStrings,
  wheelCsv,
  wheelDocument,
} from "../../../src/index.js";
import type { ReportPage } from "../../../src/pages.js";
import { chooseTargets } from "./chooseTargets.js";
import { drawPage, type loadPages } from "./drawPage.js";
import type { MoreAsked, Reply, Request } from "./Messages.js";
import { openSound } from "./openSound.js";
import { readBodies } from "./readBodies.js";
import { toolVersion } from "./toolVersion.js";

type Pages = Awaited<ReturnType<typeof loadPages>>;
type Tell = (reply: Reply) => void;
/** What is asked of one kind of reading. */
type Asked<What extends MoreAsked["what"]> = Extract<MoreAsked, { readonly what: What }>;

/** A document of one of the commands, its table, and its page. */
interface Made {
  readonly document: object;
  readonly csv: string;
  page(pages: Pages): ReportPage;
}

/** The other readings of the set-up, each with the settings that its command would take. */
export async function readMore(request: Extract<Request, { kind: "more" }>, tell: Tell): Promise<void> {
  const chosen = chooseTargets(request.targets);
  const { document, csv, page } = made(request, chosen, tell);
  tell({ kind: "made", json: documentJson(document), csv });
  tell({ kind: "drawn", page: await drawPage(page) });
}

function made(asked: MoreAsked, chosen: TakeTargets, tell: Tell): Made {
  switch (asked.what) {
    case "wheel":
      return wheel(asked, chosen, tell);
    case "trompette":
      return trompette(asked, chosen, tell);
    case "sympathetic":
      return sympathetic(asked, chosen, tell);
    case "tap": {
      const document = readBodies(asked, chosen, tell);
      return { document, csv: tapCsv(document), page: (pages) => pages.tapPage(document) };
    }
    case "stringing":
      return stringing(asked, chosen);
  }
}

const telling = (tell: Tell) => (share: number) => tell({ kind: "progress", share });

function wheel({ sound, turnsPerSecond }: Asked<"wheel">, chosen: TakeTargets, tell: Tell): Made {
  const { anchor: _, lowEdgeHz: __, ...settings } = chosen.settings;
  const reading = measureTake(openSound(sound), {
    ...measureOptionsOf(chosen),
    ...(turnsPerSecond !== null && { turnsPerSecond }),
    onProgress: telling(tell),
  });
  const document = wheelDocument({
    toolVersion,
    instrument: chosen.instrument?.name ?? null,
    settings: { ...settings, turnsPerSecond },
    file: sound.name,
    reading,
  });
  return { document, csv: wheelCsv(document), page: (pages) => pages.wheelPage(document) };
}

function trompette(
  { sound, string: name, turnsPerSecond }: Asked<"trompette">,
  { instrument, targets, settings }: TakeTargets,
  tell: Tell,
): Made {
  const string = targets?.find((one) => one.name === name) ?? null;
  const reading = readTrompette(openSound(sound), {
    ...trompetteStrings(string, targets),
    ...(turnsPerSecond !== null && { turnsPerSecond }),
    onProgress: telling(tell),
  });
  const { a4Hz, tonic, temperament, tuning, capo } = settings;
  const document = trompetteDocument({
    toolVersion,
    instrument: instrument?.name ?? null,
    settings: { a4Hz, tonic, temperament, tuning, capo, turnsPerSecond },
    file: sound.name,
    reading,
  });
  return { document, csv: trompetteCsv(document), page: (pages) => pages.trompettePage(document) };
}

function sympathetic(
  { sound, strings }: Asked<"sympathetic">,
  { instrument, targets: all, settings }: TakeTargets,
  tell: Tell,
): Made {
  const { a4Hz, tonic, temperament, tuning, capo, order } = settings;
  const names = strings && all && targetNames("strings", strings, all);
  const own = all?.filter(({ name, role }) => names?.includes(name) ?? role === "sympathetic") ?? [];
  // An instrument that names none: any of its strings may have been plucked.
  const targets = own.length > 0 ? own : all;
  const reading = readSympathetic(openSound(sound), {
    targets,
    a4Hz,
    ...(order !== null && { order }),
    onProgress: telling(tell),
  });
  const document = sympatheticDocument({
    toolVersion,
    instrument: instrument?.name ?? null,
    settings: { a4Hz, tonic, temperament, tuning, capo, order },
    file: sound.name,
    reading,
  });
  return { document, csv: sympatheticCsv(document), page: (pages) => pages.sympatheticPage(document) };
}

function stringing(asked: Asked<"stringing">, { instrument, settings }: TakeTargets): Made {
  const { against, otherLengthMm, retune, tensionNewton } = asked;
  const document = stringingOf(
    {
      // The page asks for it with an instrument only.
      instrument: instrument as Instrument,
      against: against === null ? null : readInstrument(against),
      otherLengthMm,
      retune: new Map(Object.entries(retune)),
      tensionNewton,
      a4Hz: settings.a4Hz,
      tonic: settings.tonic,
    },
    toolVersion,
  );
  return { document, csv: stringingCsv(document), page: (pages) => pages.stringingPage(document, []) };
}
