// The licences of the packages that got into a bundle, as one text to be carried beside it.
import { readdirSync, readFileSync, statSync } from "node:fs";

/** At the top of a package, or in a folder of licences that it carries. */
const LICENCE_FILE = /^(?:licenses\/)?(?:licen[cs]e|notice|copying)[^/]*$/i;

/**
 * @param paths - of the files that the bundler says it used
 * @param what - what they were built into
 */
export function notices(paths, what) {
  const folders = new Set();
  for (const path of paths) {
    const [folder] = /^.*node_modules\/(?:@[^/]+\/)?[^/]+/.exec(path) ?? [];
    if (folder !== undefined) folders.add(folder);
  }
  const texts = [...folders].sort().map((folder) => {
    const { name, version, license } = JSON.parse(readFileSync(`${folder}/package.json`, "utf8"));
    const texts = licenceTexts(folder);
    if (license === undefined && texts.length === 0)
      throw new Error(`${name} names no licence: it can't be built in`);
    if (texts.length === 0) texts.push("The package carries no licence text of its own.");
    return [`${name} ${version}${license ? ` (${license})` : ""}`, ...texts].join("\n\n");
  });
  const rule = `\n\n${"-".repeat(80)}\n\n`;
  return `What is built into this ${what} besides its own code, and under which terms.${rule}${[...new Set(texts)].join(rule)}\n`;
}

/** The licence texts of a package: its licence and notice files, else what its README says under that head. */
function licenceTexts(folder) {
  const files = readdirSync(folder, { recursive: true }).filter(
    (name) => LICENCE_FILE.test(name) && statSync(`${folder}/${name}`).isFile(),
  );
  if (files.length > 0) return files.map((name) => readFileSync(`${folder}/${name}`, "utf8").trim());
  const readme = readdirSync(folder).find((name) => /^readme/i.test(name));
  const said = readme && /^#+ *licen[cs]e[\s\S]*$/im.exec(readFileSync(`${folder}/${readme}`, "utf8"))?.[0];
  return said ? [said.trim()] : [];
}
