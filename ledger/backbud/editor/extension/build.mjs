// Makes the folder `built`, which is the whole extension: the client in one file, the generated
// grammar, and a manifest without what only the build needs. `npm ci && npm run build`.

import { execFileSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";

const here = dirname(fileURLToPath(import.meta.url));
const grammar = join(here, "../../../../grammar/backbud_grammar/editors/vscode");
const built = join(here, "built");

execFileSync(process.execPath, [join(here, "node_modules/typescript/bin/tsc"), "--project", here], {
  stdio: "inherit",
});
mkdirSync(built, { recursive: true });
await build({
  entryPoints: [join(here, "src/client.ts")],
  outfile: join(built, "client.js"),
  bundle: true,
  platform: "node",
  target: "node18",
  format: "cjs",
  external: ["vscode"],
  minify: true,
});
for (const name of ["backbud.tmLanguage.json", "language-configuration.json"]) {
  cpSync(join(grammar, name), join(built, name));
}
const { scripts, devDependencies, private: _, ...manifest } = JSON.parse(
  readFileSync(join(here, "package.json"), "utf8"),
);
writeFileSync(join(built, "package.json"), `${JSON.stringify(manifest, null, 2)}\n`);
