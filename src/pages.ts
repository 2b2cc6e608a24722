/**
 * The door to pages: what draws charts. It is apart from `index.ts` because the chart library takes longer to load than all the
 * rest, and most readings are printed.
 *
 * @module
 */
export type { Chart } from "./report/charts/Chart.js";
export { chartSvg } from "./report/charts/chartSvg.js";
export { checkPage } from "./report/html/checkPage.js";
export { comparePage } from "./report/html/comparePage.js";
export { historyPage } from "./report/html/historyPage.js";
export { htmlPage } from "./report/html/htmlPage.js";
export { keyboardPage } from "./report/html/keyboardPage.js";
export { measurePage } from "./report/html/measurePage.js";
export type {
  ReportBlock,
  ReportColumn,
  ReportFinding,
  ReportPage,
  ReportSection,
} from "./report/html/ReportPage.js";
export { stringingPage } from "./report/html/stringingPage.js";
export { sympatheticPage } from "./report/html/sympatheticPage.js";
export { tapPage } from "./report/html/tapPage.js";
export { trompettePage } from "./report/html/trompettePage.js";
export { tuningsPage } from "./report/html/tuningsPage.js";
export { wheelPage } from "./report/html/wheelPage.js";
