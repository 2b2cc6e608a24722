import { describe, expect, it } from "vitest";
import { phaseChart } from "../../src/report/charts/phaseChart.js";
import { turnChart } from "../../src/report/charts/turnChart.js";
import { wheelPage } from "../../src/report/html/wheelPage.js";
import { passageOf } from "../wheel/handMadeMovement.js";
import { handMadeWheelDocument, SECONDS, swinging } from "./handMadeWheel.js";
import { dataOf, HOSTILE, pageOf, QUOTES } from "./pageOf.js";

const two = handMadeWheelDocument([passageOf(SECONDS, { [HOSTILE]: swinging(0), [QUOTES]: swinging(2) })]);
const [passage] = two.passages;

describe("wheelPage", () => {
  it("gives the answer, the strings, the turn, the phases, and what to try", () => {
    const page = wheelPage(two);
    const html = pageOf(page);
    expect(page.answer).toEqual(two.verdict);
    expect(page.sections.filter(({ blocks }) => blocks.length > 0).map(({ heading }) => heading)).toEqual([
      "Swing by string, to either side",
      "One turn of the wheel",
      "The strings against each other",
      "What does not come round",
      "The rate",
      "What to try",
      "Caution",
      "What the words mean",
      "How it was measured",
    ]);
    expect(html).toContain("&lt;script&gt;");
  });

  it("unrolls pitch and level of each string at 24 places, told apart by dash and symbol too", () => {
    const chart = turnChart(passage!.strings);
    const lines = dataOf(chart, "line");
    expect(lines.map(({ length }) => length)).toEqual([24, 24, 24, 24]);
    const { series } = chart.option(700) as {
      series: { type: string; symbol?: unknown; lineStyle?: { type: unknown } }[];
    };
    const [one, other] = series.filter(({ type }) => type === "line");
    expect(one!.symbol).not.toEqual(other!.symbol);
    expect(one!.lineStyle!.type).not.toEqual(other!.lineStyle!.type);
  });

  it("lets a range that passes half a turn come in from the other side", () => {
    const [difference] = passage!.differences;
    const chart = phaseChart([{ ...difference!, laterDegrees: 175, interval95Degrees: [165, 185] }]);
    const [ranges] = dataOf(chart, "custom");
    // 185 degrees later is 175 earlier.
    expect(ranges).toContainEqual([0, -195, -175]);
    expect(ranges).toContainEqual([0, 165, 185]);
  });

  it("is whole where no swing is shown, and where there is no passage", () => {
    const still = wheelPage(handMadeWheelDocument([passageOf(SECONDS, { C2: swinging(0, 0) })]));
    expect(pageOf(still)).not.toContain("<svg");
    const none = wheelPage(handMadeWheelDocument([]));
    expect(pageOf(none)).toContain("No steady passage was found");
  });

  it("tells many passages in a table and one of them in full", () => {
    const many = wheelPage(
      handMadeWheelDocument(Array.from({ length: 4 }, (_, i) => passageOf(SECONDS, { C2: swinging(i) }))),
    );
    expect(pageOf(many).match(/>One turn of the wheel, 1\.0 to/g)).toHaveLength(1);
    expect(many.sections[0]).toMatchObject({ heading: "Passages", blocks: [{ kind: "table" }] });
  });
});
