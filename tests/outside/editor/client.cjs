// A dialogue of the protocol's own client library with `waxwright lsp`. Each answer is looked at by
// the type guards of vscode-languageserver-types 3.17.5 and told in a line or two. editor_check.py
// runs this in a copy of desk/:
//
//   client.cjs PROGRAM DIALOGUE ENCODING
//
// ENCODING is what this client says it counts in: utf-8 or utf-16.
"use strict";
const { spawn } = require("child_process");
const fs = require("fs");
const path = require("path");
const { pathToFileURL, fileURLToPath } = require("url");
const lsp = require("vscode-languageserver-protocol/node");

const [program, dialogue, encoding] = process.argv.slice(2);
const out = [];
const tell = (words) => out.push(words);
const title = (words) => tell(`\n== ${words}`);
const fail = (why) => {
  fs.writeFileSync(dialogue, out.join("\n") + "\n");
  console.error(why);
  process.exit(1);
};
const demand = (good, what, value) => {
  if (!good) fail(`${what} is not as the protocol has it: ${JSON.stringify(value)}`);
};

const server = spawn(program, ["lsp", "--stdio"], { stdio: ["pipe", "pipe", "inherit"] });
const connection = lsp.createProtocolConnection(
  new lsp.StreamMessageReader(server.stdout), new lsp.StreamMessageWriter(server.stdin));
connection.onError((problem) => fail(`the connection: ${problem}`));

const found = new Map(); // by address: the diagnostics last sent
const waiting = [];
connection.onNotification(lsp.PublishDiagnosticsNotification.type, (params) => {
  for (const each of params.diagnostics) demand(lsp.Diagnostic.is(each), "a diagnostic", each);
  found.set(params.uri, params);
  waiting.splice(0).forEach((look) => look());
});
const until = (condition) => new Promise((done) => {
  const look = () => condition() ? done() : waiting.push(look);
  look();
});
let watched = 0;
connection.onRequest(lsp.RegistrationRequest.type, (params) => {
  watched += params.registrations.length;
});

connection.listen();

const here = process.cwd();
const uri = (name) => pathToFileURL(path.join(here, name)).toString();
const name = (address) => path.basename(fileURLToPath(address));
const texts = new Map();
const versions = new Map();

const open = (file) => {
  const text = fs.readFileSync(path.join(here, file), "utf8");
  texts.set(file, text);
  versions.set(file, 1);
  connection.sendNotification(lsp.DidOpenTextDocumentNotification.type, {
    textDocument: { uri: uri(file), languageId: "candle", version: 1, text } });
};

// How many units a text has in what was agreed on.
const units = (text) => encoding === "utf-8" ? Buffer.byteLength(text) : text.length;
const index = (line, character) => { // units into a line -> index into a JavaScript string
  if (encoding !== "utf-8") return character;
  return Buffer.from(line).subarray(0, character).toString().length;
};
const position = (file, word, further = 0) => {
  const text = texts.get(file);
  const at = text.indexOf(word);
  if (at < 0) fail(`no ${word} in ${file}`);
  const before = text.slice(0, at + further).split("\n");
  return { line: before.length - 1, character: units(before[before.length - 1]) };
};
const offset = (text, place) => {
  const lines = text.split("\n");
  const before = lines.slice(0, place.line).reduce((sum, line) => sum + line.length + 1, 0);
  return before + index(lines[place.line] ?? "", place.character);
};
const slice = (file, range) =>
  texts.get(file).slice(offset(texts.get(file), range.start), offset(texts.get(file), range.end));

// Types over a word, as a change of a part of the text.
const type = (file, word, typed) => {
  const range = { start: position(file, word), end: position(file, word, word.length) };
  texts.set(file, texts.get(file).replace(word, () => typed));
  versions.set(file, versions.get(file) + 1);
  connection.sendNotification(lsp.DidChangeTextDocumentNotification.type, {
    textDocument: { uri: uri(file), version: versions.get(file) },
    contentChanges: [{ range, text: typed }] });
};
const settled = (file) => until(() => found.get(uri(file))?.version === versions.get(file));
const findings = (file) => {
  const all = found.get(uri(file)).diagnostics;
  if (all.length === 0) tell("  nothing is found");
  for (const each of all) tell(`  [${each.code}] at \`${slice(file, each.range)}\``);
};
const about = (file, word, further) => ({
  textDocument: { uri: uri(file) }, position: position(file, word, further) });
const edited = (file, edits) => {
  let text = texts.get(file);
  const places = edits.map((edit) => {
    demand(lsp.TextEdit.is(edit), "an edit", edit);
    return [offset(text, edit.range.start), offset(text, edit.range.end), edit.newText];
  }).sort((a, b) => b[0] - a[0]);
  for (const [from, to, put] of places) text = text.slice(0, from) + put + text.slice(to);
  return text;
};
const changed_lines = (file, text) => {
  const before = texts.get(file).split("\n");
  text.split("\n").forEach((line, at) => {
    if (line !== before[at]) tell(`  ${file}:${at + 1} | ${line}`);
  });
};

async function begin() {
  title("initialize");
  const answer = await connection.sendRequest(lsp.InitializeRequest.type, {
    processId: process.pid, rootUri: pathToFileURL(here).toString(),
    workspaceFolders: [{ uri: pathToFileURL(here).toString(), name: "desk" }],
    capabilities: {
      general: { positionEncodings: [encoding] },
      workspace: { workspaceEdit: { documentChanges: true },
                   didChangeWatchedFiles: { dynamicRegistration: true } },
      textDocument: {
        publishDiagnostics: { relatedInformation: true, versionSupport: true },
        hover: { contentFormat: ["plaintext"] },
        completion: { completionItem: { snippetSupport: true } },
        documentSymbol: { hierarchicalDocumentSymbolSupport: true } } } });
  const can = answer.capabilities;
  tell(`  counts in ${can.positionEncoding}, changes by part: ${can.textDocumentSync.change === 2}`);
  tell("  " + Object.keys(can).filter((key) => key.endsWith("Provider")).sort().join(", "));
  await connection.sendNotification(lsp.InitializedNotification.type, {});

  title("open both files");
  open("bench.candle");
  open("marsh.candle");
  await settled("marsh.candle");
  findings("marsh.candle");
  return can;
}

async function type_and_mend() {
  title("a slip behind characters that take several units; and its fix");
  type("marsh.candle", "scent: dusk", "scent: lavendar # “é𐐀”\n  scent: dusk");
  await settled("marsh.candle");
  findings("marsh.candle");
  type("marsh.candle", " # “é𐐀”\n  scent: dusk", "");
  type("marsh.candle", "\"Dusk “é𐐀”\"", "\"Dusk “é𐐀”\", soot: 1");
  await settled("marsh.candle");
  findings("marsh.candle");
  type("marsh.candle", ", soot: 1", "");
  await settled("marsh.candle");
  const at = position("marsh.candle", "lavendar", 2);
  const actions = await connection.sendRequest(lsp.CodeActionRequest.type, {
    textDocument: { uri: uri("marsh.candle") }, range: { start: at, end: at },
    context: { diagnostics: [], only: [lsp.CodeActionKind.QuickFix] } });
  for (const action of actions) {
    demand(lsp.CodeAction.is(action), "an action", action);
    tell(`  ${action.title}`);
    changed_lines("marsh.candle", edited("marsh.candle", action.edit.documentChanges[0].edits));
  }
  type("marsh.candle", "lavendar", "dusk");
  await settled("marsh.candle");
}

async function ask_about_names() {
  title("definition, references, highlights of `house-load`");
  const where = await connection.sendRequest(
    lsp.DefinitionRequest.type, about("marsh.candle", "house-load", 3));
  for (const each of [where].flat()) {
    demand(lsp.Location.is(each), "a definition", each);
    tell(`  said in ${name(each.uri)}: \`${slice(name(each.uri), each.range)}\``);
  }
  const uses = await connection.sendRequest(lsp.ReferencesRequest.type, {
    ...about("marsh.candle", "house-load", 3), context: { includeDeclaration: true } });
  for (const each of uses) {
    demand(lsp.Location.is(each), "a reference", each);
    tell(`  used in ${name(each.uri)}:${each.range.start.line + 1}`);
  }
  const lit = await connection.sendRequest(
    lsp.DocumentHighlightRequest.type, about("marsh.candle", "house-load", 3));
  tell(`  highlighted: ${lit.map((each) => slice("marsh.candle", each.range)).join(", ")}`);

  title("rename it in both files");
  const ready = await connection.sendRequest(
    lsp.PrepareRenameRequest.type, about("marsh.candle", "house-load", 3));
  tell(`  takes \`${slice("marsh.candle", ready.range ?? ready)}\``);
  const edit = await connection.sendRequest(lsp.RenameRequest.type, {
    ...about("marsh.candle", "house-load", 3), newName: "winter-load" });
  demand(lsp.WorkspaceEdit.is(edit), "a rename", edit);
  for (const change of edit.documentChanges) {
    demand(change.textDocument.version === 1 || name(change.textDocument.uri) === "marsh.candle",
      "a version", change);
    const file = name(change.textDocument.uri);
    changed_lines(file, edited(file, change.edits));
  }
  for (const bad of ["dusk", "winter!", "wax"]) {
    await connection.sendRequest(lsp.RenameRequest.type, {
      ...about("marsh.candle", "house-load", 3), newName: bad }).then(
      () => fail(`renamed to ${bad}`), (problem) => tell(`  to \`${bad}\`: ${problem.message}`));
  }
}

async function ask_about_text(can) {
  title("hover");
  for (const word of ["load:", "house-load", "75 °C", "cotton-braid-large"]) {
    const hover = await connection.sendRequest(lsp.HoverRequest.type, about("marsh.candle", word, 1));
    demand(lsp.Hover.is(hover), "a hover", hover);
    tell(`  ${word} ${hover.contents.value.split("\n").filter((line) => line)[0]}`);
  }

  title("completion behind `extras: 1 `");
  type("marsh.candle", "  pot:", "  extras: 1 \n  pot:");
  const answer = await connection.sendRequest(
    lsp.CompletionRequest.type, about("marsh.candle", "extras: 1 ", "extras: 1 ".length));
  const items = answer === null ? [] : answer.items ?? answer;
  demand(items.every((item) => typeof item.label === "string" &&
    (item.textEdit === undefined || lsp.TextEdit.is(item.textEdit))), "an item", items);
  tell(`  ${items.length} items`);
  type("marsh.candle", "  extras: 1 \n", "");

  title("symbols, folds, formatting");
  const symbols = await connection.sendRequest(
    lsp.DocumentSymbolRequest.type, { textDocument: { uri: uri("bench.candle") } });
  for (const each of symbols) {
    demand(lsp.DocumentSymbol.is(each), "a symbol", each);
    tell(`  ${each.name} from line ${each.range.start.line + 1} to ${each.range.end.line + 1}`);
  }
  const everywhere = await connection.sendRequest(lsp.WorkspaceSymbolRequest.type, { query: "dusk" });
  tell(`  \`dusk\`: ${everywhere.map((each) => each.name).join(", ")}`);
  const folds = await connection.sendRequest(
    lsp.FoldingRangeRequest.type, { textDocument: { uri: uri("bench.candle") } });
  demand(folds.every((fold) => lsp.FoldingRange.is(fold)), "a fold", folds);
  tell(`  folds: ${folds.map((fold) => `${fold.startLine + 1}-${fold.endLine + 1}`).join(", ")}`);
  const edits = await connection.sendRequest(lsp.DocumentFormattingRequest.type, {
    textDocument: { uri: uri("bench.candle") }, options: { tabSize: 2, insertSpaces: true } });
  tell(`  formatting changes ${edits.length} places`);

  title("tokens and grams of marsh.candle");
  const tokens = await connection.sendRequest(
    lsp.SemanticTokensRequest.type, { textDocument: { uri: uri("marsh.candle") } });
  demand(lsp.SemanticTokens.is(tokens), "tokens", tokens);
  const legend = can.semanticTokensProvider.legend;
  let line = 0, character = 0, row = [];
  for (let at = 0; at < tokens.data.length; at += 5) {
    const [down, right, length, kind] = tokens.data.slice(at, at + 4);
    if (down > 0) {
      if (row.length > 0) tell(`  ${row.join(" ")}`);
      row = [];
    }
    line += down;
    character = down > 0 ? right : character + right;
    const range = { start: { line, character }, end: { line, character: character + length } };
    row.push(`${legend.tokenTypes[kind]}(${slice("marsh.candle", range)})`);
  }
  tell(`  ${row.join(" ")}`);
  const hints = await connection.sendRequest(lsp.InlayHintRequest.type, {
    textDocument: { uri: uri("marsh.candle") },
    range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } } });
  for (const each of hints) {
    demand(lsp.InlayHint.is(each), "a hint", each);
    tell(`  line ${each.position.line + 1}: ${each.label}`);
  }
}

async function finish() {
  title("cure the last finding, close, shut down");
  connection.sendNotification(lsp.DidCloseTextDocumentNotification.type,
    { textDocument: { uri: uri("marsh.candle") } });
  await until(() => found.get(uri("marsh.candle")).diagnostics.length === 0);
  tell("  closed: no findings are left");
  demand(watched === 1, "the watch", watched);
  await connection.sendRequest(lsp.ShutdownRequest.type);
  await connection.sendNotification(lsp.ExitNotification.type);
  const status = await new Promise((done) => server.on("exit", done));
  tell(`  exit ${status}`);
}

async function main() {
  const can = await begin();
  await type_and_mend();
  await ask_about_names();
  await ask_about_text(can);
  await finish();
  fs.writeFileSync(dialogue, out.join("\n") + "\n");
  process.exit(0);
}

main().catch((problem) => fail(problem.stack));
