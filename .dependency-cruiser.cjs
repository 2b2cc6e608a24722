// Layer rules: data flows one way, and each room of src/ may look only where this file lets it.
const rooms = {
  units: ["errors"],
  signal: ["units", "errors"],
  audio: ["signal", "units", "errors"],
  wav: ["audio", "errors"],
  statistics: ["errors"],
  instrument: ["units", "errors"],
  pitch: ["signal", "audio", "units", "errors"],
  partials: ["signal", "audio", "units", "errors"],
  strings: ["signal", "audio", "pitch", "partials", "statistics", "instrument", "units", "errors"],
  wheel: ["strings", "signal", "statistics", "units", "errors"],
  body: ["strings", "partials", "signal", "statistics", "units", "errors"],
  reading: [
    "body",
    "wheel",
    "strings",
    "partials",
    "pitch",
    "statistics",
    "instrument",
    "signal",
    "audio",
    "wav",
    "units",
    "errors",
  ],
  comparison: ["reading", "body", "statistics", "units", "errors"],
  report: ["comparison", "reading", "body", "wheel", "strings", "partials", "instrument", "audio", "units", "errors"],
  synthesis: ["audio", "statistics", "units", "errors"],
};

const roomRules = Object.entries(rooms).map(([room, allowed]) => ({
  name: `room-${room}`,
  comment: `src/${room} may import only: ${allowed.join(", ")}`,
  severity: "error",
  from: { path: `^src/${room}/` },
  to: { path: "^src/", pathNot: `^src/(${[room, ...allowed].join("|")})(/|\\.ts$)` },
}));

module.exports = {
  forbidden: [
    ...roomRules,
    {
      name: "errors-import-nothing",
      severity: "error",
      from: { path: "^src/errors\\.ts$" },
      to: { path: ".+" },
    },
    {
      name: "src-is-pure",
      comment: "src/ runs in a browser as it stands: no Node core module",
      severity: "error",
      from: { path: "^src/" },
      to: { dependencyTypes: ["core"] },
    },
    {
      name: "src-knows-no-cli",
      severity: "error",
      from: { path: "^src/" },
      to: { path: "^(cli|tests|fixtures)/" },
    },
    {
      name: "cli-uses-the-front-door",
      comment: "cli/ imports only src/index.ts",
      severity: "error",
      from: { path: "^cli/" },
      to: { path: "^src/", pathNot: "^src/index\\.ts$" },
    },
    {
      name: "one-file-touches-the-disk",
      comment: "only cli/files.ts may import node:fs",
      severity: "error",
      from: { path: "^cli/", pathNot: "^cli/files\\.ts$" },
      to: { path: "^(node:)?fs(/promises)?$" },
    },
    { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: ".tsconfig.base.json" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "types", "default"] },
  },
};
