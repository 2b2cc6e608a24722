/** What draws pages. It is loaded only where a page is asked for: the chart library takes longer to load than all the rest. */
export type Pages = typeof import("../src/pages.js");
