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

// To change what a document is closes it and opens it anew, so each is changed once at a time, and
// one that was closed meanwhile is none of ours any more.
const changing = new Set<string>();

async function asJournal(document: vscode.TextDocument): Promise<void> {
  const { languageId, uri } = document;
  const key = uri.toString();
  if (languageId !== "plaintext" || uri.scheme !== "file" || changing.has(key)) return;
  if (!uri.fsPath.endsWith(".txt") || !inAJournal(uri.fsPath)) return;
  changing.add(key);
  try {
    await vscode.languages.setTextDocumentLanguage(document, "backbud");
  } catch (error) {
    if (!document.isClosed) console.warn(`backbud: ${key}: ${error}`);
  } finally {
    changing.delete(key);
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
    {
      // A text that is plain still is spoken of, too; the server leaves alone what is in no journal.
      documentSelector: [
        { scheme: "file", language: "backbud" },
        { scheme: "file", language: "plaintext", pattern: "**/*.txt" },
      ],
    },
  );
  context.subscriptions.push(
    vscode.workspace.onDidOpenTextDocument(asJournal),
    vscode.window.onDidChangeActiveTextEditor((editor) => editor && asJournal(editor.document)),
  );
  await client.start();
  await Promise.all(vscode.workspace.textDocuments.map(asJournal));
}

export function deactivate(): Promise<void> | undefined {
  return client?.stop();
}
