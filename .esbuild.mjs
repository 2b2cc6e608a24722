// Bundles the command, packages and all: from one file it starts in two thirds of the time that their many files take
// (`DEVELOPERS.md`). What works is one script, which the engine has compiled ahead; what draws the pages is a part of its own.
// The licences of every package that got in are written beside it, found through what the bundler says it used.
import {
  chmodSync,
  copyFileSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { basename } from "node:path";
import { build } from "esbuild";
import { notices } from "./.notices.mjs";

const OUT = "dist/cli";
/** Modules of one function each that the threads load, and those that compile what these need when they are tried. */
const WORK = ["work", "poolWorker", "readAhead", "shareJobs"];
const EXERCISED = ["commandsFor", "runCommands"];
const FRONT_DOOR = "src/index.ts";

/** Where each name of the front door comes from: name, as it is called there, file. */
const behindTheDoor = new Map(
  [...readFileSync(FRONT_DOOR, "utf8").matchAll(/export \{([^}]*)\} from "\.\/([^"]+)";/g)].flatMap(
    ([, names, path]) =>
      names
        .split(",")
        .map((name) => name.trim())
        .filter((name) => name !== "" && !name.startsWith("type "))
        .map((name) => {
          const [own, as = own] = name.split(" as ");
          return [as, { own, path }];
        }),
  ),
);

/**
 * The command's files import from the front door of the library. Taken at its word, that makes all of the library one part, which
 * has to be loaded whole; so each name is imported from its own file.
 */
const pastTheDoor = {
  name: "past-the-door",
  setup({ onLoad }) {
    onLoad({ filter: /[\\/]cli[\\/].*\.ts$/ }, ({ path }) => ({
      loader: "ts",
      contents: readFileSync(path, "utf8").replace(
        /(import|export) \{([^}]*)\} from "((?:\.\.\/)+src)\/index\.js";/g,
        (_, keyword, names, folder) =>
          names
            .split(",")
            .map((name) => name.trim())
            .filter((name) => name !== "" && !name.startsWith("type "))
            .map((name) => {
              const [outer, as = outer] = name.split(" as ");
              const found = behindTheDoor.get(outer);
              if (found === undefined) throw new Error(`${path}: ${outer} is not in ${FRONT_DOOR}`);
              return `${keyword} { ${found.own} as ${as} } from "${folder}/${found.path}";`;
            })
            .join(""),
      ),
    }));
  },
};
rmSync(`${OUT}/parts`, { recursive: true, force: true });

const common = {
  bundle: true,
  metafile: true,
  platform: "node",
  target: "node20",
  logLevel: "warning",
  define: { "process.env.NODE_ENV": '"production"' },
};
const script = {
  ...common,
  format: "cjs",
  outdir: `${OUT}/parts`,
  entryNames: "[name]-[hash]",
  // One function, as `loadPart` takes it.
  banner: {
    js: "(function (exports, require, module, __filename, __dirname) { const here = require('node:url').pathToFileURL(__filename).href;",
  },
  footer: { js: "})" },
  outExtension: { ".js": ".cjs" },
  define: { ...common.define, "import.meta.url": "here" },
  // What the sources load later is loaded by `require` here: a script has no `import`.
  supported: { "dynamic-import": false },
};
const fileOf = ({ metafile: { outputs } }) => basename(Object.keys(outputs)[0]);

/** What draws the pages: a module of its own for `require`, loaded where a page is asked for. */
const pages = await build({
  ...script,
  entryPoints: ["src/pages.ts"],
  banner: {},
  footer: {},
  define: common.define,
});
const pagesApart = {
  name: "pages-apart",
  setup({ onResolve }) {
    onResolve({ filter: /[\\/]src[\\/]pages\.js$/ }, () => ({ path: `./${fileOf(pages)}`, external: true }));
  },
};

/** What works, in whichever thread: one script, compiled ahead. */
const work = await build({
  ...script,
  entryNames: "work-[hash]",
  stdin: {
    contents: [...WORK, ...EXERCISED].map((name) => `export { ${name} } from "./cli/${name}.js";`).join("\n"),
    resolveDir: ".",
    sourcefile: "work.ts",
    loader: "ts",
  },
  plugins: [pagesApart, pastTheDoor],
});
const workFile = fileOf(work);
/** Where the watching thread's sources load one of the modules that the script holds, it is loaded from there. */
const fromTheScript = {
  name: "from-the-script",
  setup({ onResolve, onLoad }) {
    onResolve({ filter: /^\.\/\w+\.js$/ }, ({ path, kind }) =>
      kind === "dynamic-import" && WORK.includes(basename(path, ".js"))
        ? { path: "work", namespace: "script" }
        : undefined,
    );
    onLoad({ filter: /^work$/, namespace: "script" }, () => ({
      resolveDir: ".",
      contents: `
        import { fileURLToPath } from "node:url";
        import { loadPart } from "./cli/files/loadPart.ts";
        export const { ${WORK.join(", ")} } = loadPart(fileURLToPath(new URL("./${workFile}", import.meta.url))).exports;`,
    }));
  },
};
const main = await build({
  ...common,
  entryPoints: ["cli/main.ts"],
  splitting: true,
  format: "esm",
  outdir: OUT,
  chunkNames: "parts/[name]-[hash]",
  plugins: [fromTheScript, pastTheDoor],
});
await compileAhead(`${process.cwd()}/${OUT}/parts/${workFile}`);

/** Measures the demonstration take with the script, and keeps what the engine has compiled for it. */
async function compileAhead(path) {
  const { outputFiles } = await build({
    ...common,
    entryPoints: ["cli/files/loadPart.ts"],
    format: "esm",
    write: false,
  });
  const source = Buffer.from(outputFiles[0].contents).toString("base64");
  const { loadPart, codeOf } = await import(`data:text/javascript;base64,${source}`);
  const { exports, compiledCode } = loadPart(path);
  const nobody = { isTTY: false, columns: 80, write: () => {} };
  const args = ["measure", "fixtures/demo-take.wav", "--tuning", "soprano"];
  const exitCode = exports.runCommands(
    await exports.commandsFor(args),
    args,
    { stdout: nobody, stderr: nobody, colour: false },
    { pages: null, readInstrument: null },
  );
  if (exitCode !== 0) throw new Error(`the demonstration take gave exit code ${exitCode}`);
  const port = { postMessage: () => {}, on: () => {}, unref: () => {} };
  await exports.shareJobs(port, await exports.readAhead(args, port));
  writeFileSync(codeOf(path), compiledCode());
}

const outputs = [pages, work, main].flatMap(({ metafile }) => Object.values(metafile.outputs));
const used = outputs.flatMap(({ inputs }) =>
  Object.entries(inputs).flatMap(([path, { bytesInOutput }]) => (bytesInOutput > 0 ? [path] : [])),
);
// npx and npm's links start the file itself.
chmodSync(`${OUT}/main.js`, 0o755);
writeFileSync(`${OUT}/third-party-notices.txt`, notices(used, "command"));

// The schemas of the JSON documents are published by their names alone (`gurdybench/schemas/...`).
mkdirSync("dist/schemas", { recursive: true });
for (const path of readdirSync("src", { recursive: true })) {
  if (path.endsWith(".schema.json")) copyFileSync(`src/${path}`, `dist/schemas/${basename(path)}`);
}
