// Starts `backbud editor` for the text files of a journal, and lets the editor speak with it.

import { existsSync } from "node:fs";
import { dirname, join } from "node:path";
import * as vscode from "vscode";
import { LanguageClient } from "vscode-languageclient/node";

let client: LanguageClient | undefined;

// Whether a file lies in or below a folder with settings of a journal.
function inAJournal(path: string): boolean {
  for (let folder = dirname(path); ; folder = dirname(folder)) {
    if (existsSync(join(folder, "backbud.toml"))) return true;
    if (dirname(folder) === folder) return false;
  }
}

async function asJournal(document: vscode.TextDocument): Promise<void> {
  const { languageId, uri } = document;
  if (languageId === "plaintext" && uri.scheme === "file" && uri.fsPath.endsWith(".txt")) {
    if (inAJournal(uri.fsPath)) await vscode.languages.setTextDocumentLanguage(document, "backbud");
  }
}

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  const [command, ...args] = vscode.workspace
    .getConfiguration("backbud")
    .get<string[]>("command", ["backbud", "editor"]);
  client = new LanguageClient(
    "backbud",
    "backbud",
    { command, args },
    { documentSelector: [{ scheme: "file", language: "backbud" }] },
  );
  context.subscriptions.push(vscode.workspace.onDidOpenTextDocument(asJournal));
  await client.start();
  for (const document of vscode.workspace.textDocuments) await asJournal(document);
}

export function deactivate(): Promise<void> | undefined {
  return client?.stop();
}
