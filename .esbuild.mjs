// Bundles the command, packages and all: from one file it starts in two thirds of the time that their many files take
// (`DEVELOPERS.md`). What draws the pages is a part of its own, loaded where a page is asked for.
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

const { metafile } = await build({
  entryPoints: ["cli/main.ts"],
  bundle: true,
  splitting: true,
  metafile: true,
  platform: "node",
  target: "node20",
  format: "esm",
  outdir: OUT,
  chunkNames: "parts/[name]-[hash]",
  logLevel: "warning",
  plugins: [pastTheDoor],
  define: { "process.env.NODE_ENV": '"production"' },
  // Packages in CommonJS ask for Node's own modules with `require`, which a module of the newer kind doesn't have.
  banner: {
    js: 'import { createRequire as nodeRequire } from "node:module"; const require = nodeRequire(import.meta.url);',
  },
});

const used = Object.values(metafile.outputs).flatMap(({ inputs }) =>
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
