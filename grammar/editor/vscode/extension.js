// Starts `waxwright lsp` when the first recipe file is opened, and speaks to it: findings, help under
// the pointer, completion, tidying, fixes. Without a language server, the colours are there as ever.
const vscode = require('vscode')
const { spawn } = require('child_process')

let server // the process; undefined where there is none
let found // what the server finds, as the editor shows it
let log
let last = 0
let unread = Buffer.alloc(0)
const waiting = new Map() // who waits for an answer, by the number of the request

function send(message) {
  const body = JSON.stringify({ jsonrpc: '2.0', ...message })
  server?.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`)
}
const tell = (method, params) => send({ method, params })
function ask(method, params) {
  send({ id: ++last, method, params })
  return new Promise((resolve) => (server ? waiting.set(last, resolve) : resolve(null)))
}

// Messages come in any pieces: a head, an empty line, and as many bytes as the head says.
function read(chunk) {
  unread = Buffer.concat([unread, chunk])
  for (;;) {
    const begin = unread.indexOf('\r\n\r\n') + 4
    if (begin < 4) return
    const length = /content-length: *(\d+)/i.exec(unread.toString('latin1', 0, begin))
    if (!length) return stop('a message without its length')
    const end = begin + Number(length[1])
    if (unread.length < end) return
    take(JSON.parse(unread.toString('utf8', begin, end)))
    unread = unread.subarray(end)
  }
}
function take(message) {
  if (message.method === 'textDocument/publishDiagnostics') return show(message.params)
  if (message.method && message.id !== undefined) return send({ id: message.id, result: null })
  waiting.get(message.id)?.(message.result ?? null)
  waiting.delete(message.id)
}
function stop(why) {
  if (!server) return
  log.appendLine(`no language server: ${why}`)
  server.kill()
  server = undefined
  found.clear()
  waiting.forEach((resolve) => resolve(null))
  waiting.clear()
}

// From the protocol's values to the editor's, and back.
const range = (r) => new vscode.Range(r.start.line, r.start.character, r.end.line, r.end.character)
const place = ({ line, character }) => ({ line, character })
const plain = ({ start, end }) => ({ start: place(start), end: place(end) })
const edits = (list) => (list ?? []).map((e) => vscode.TextEdit.replace(range(e.range), e.newText))
const words = (value) => new vscode.MarkdownString([].concat(value).map((v) => v.value ?? v).join('\n\n'))
const named = (document) => ({ uri: document.uri.toString() })
const here = (document, position) => ({ textDocument: named(document), position: place(position) })

function show({ uri, diagnostics }) {
  found.set(vscode.Uri.parse(uri), diagnostics.map((each) => {
    const made = new vscode.Diagnostic(range(each.range), each.message, (each.severity ?? 1) - 1)
    return Object.assign(made, { source: each.source, code: each.code })
  }))
}

async function provideHover(document, position) {
  const hover = await ask('textDocument/hover', here(document, position))
  return hover && new vscode.Hover(words(hover.contents), hover.range && range(hover.range))
}
async function provideCompletionItems(document, position) {
  const list = await ask('textDocument/completion', here(document, position))
  return (list?.items ?? list ?? []).map((item) => {
    const made = new vscode.CompletionItem(item.label, (item.kind ?? 1) - 1)
    const { textEdit, documentation, detail, sortText, filterText } = item
    made.insertText = textEdit?.newText ?? item.insertText ?? item.label
    if (textEdit) made.range = range(textEdit.range ?? textEdit.replace)
    if (documentation) made.documentation = words(documentation)
    return Object.assign(made, { detail, sortText, filterText })
  })
}
async function provideDocumentFormattingEdits(document, options) {
  return edits(await ask('textDocument/formatting', { textDocument: named(document), options }))
}
async function provideCodeActions(document, area, { diagnostics }) {
  const told = diagnostics.map(({ message, source, code, severity, range: where }) =>
    ({ message, source, code, severity: severity + 1, range: plain(where) }))
  const asked = { textDocument: named(document), range: plain(area), context: { diagnostics: told } }
  const actions = await ask('textDocument/codeAction', asked)
  return (actions ?? []).filter((each) => each.edit?.changes).map((each) => {
    const made = new vscode.CodeAction(each.title, vscode.CodeActionKind.QuickFix)
    made.edit = new vscode.WorkspaceEdit()
    for (const [uri, list] of Object.entries(each.edit.changes))
      made.edit.set(vscode.Uri.parse(uri), edits(list))
    return Object.assign(made, { isPreferred: each.isPreferred })
  })
}

/// Registers what the server says it can do.
function offer(can) {
  const { languages } = vscode
  const keys = can.completionProvider?.triggerCharacters ?? []
  return [
    can.hoverProvider && languages.registerHoverProvider('candle', { provideHover }),
    can.completionProvider && languages.registerCompletionItemProvider('candle', { provideCompletionItems }, ...keys),
    can.documentFormattingProvider && languages.registerDocumentFormattingEditProvider('candle', { provideDocumentFormattingEdits }),
    can.codeActionProvider && languages.registerCodeActionsProvider('candle', { provideCodeActions }),
  ].filter(Boolean)
}

/// Tells the server of every recipe file; the whole text each time, for it is short.
function follow() {
  const { workspace } = vscode
  const ours = (run) => (document) => document.languageId === 'candle' && run(document)
  const whole = (d) => ({ ...named(d), languageId: 'candle', version: d.version, text: d.getText() })
  const open = ours((d) => tell('textDocument/didOpen', { textDocument: whole(d) }))
  const change = ours((d) => tell('textDocument/didChange', {
    textDocument: { ...named(d), version: d.version }, contentChanges: [{ text: d.getText() }],
  }))
  const close = ours((d) => tell('textDocument/didClose', { textDocument: named(d) }))
  workspace.textDocuments.forEach(open)
  return [workspace.onDidOpenTextDocument(open), workspace.onDidCloseTextDocument(close),
    workspace.onDidChangeTextDocument((event) => change(event.document))]
}

exports.activate = async (context) => {
  const command = vscode.workspace.getConfiguration('waxwright').get('command')
  found = vscode.languages.createDiagnosticCollection('waxwright')
  log = vscode.window.createOutputChannel('Waxwright')
  context.subscriptions.push(found, log)
  if (!command) return
  server = spawn(command, ['lsp'])
  server.on('error', (error) => stop(error.message))
  server.on('exit', (status) => stop(`it ended with ${status}`))
  server.stdin.on('error', () => {}) // `exit` tells
  server.stdout.on('data', read)
  server.stderr.on('data', (text) => log.append(text.toString()))
  const fixes = { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } } }
  const capabilities = { textDocument: { codeAction: fixes } }
  const answer = await ask('initialize', { processId: process.pid, rootUri: null, capabilities })
  if (!answer) return
  tell('initialized', {})
  context.subscriptions.push(...offer(answer.capabilities), ...follow())
}
exports.deactivate = async () => {
  await ask('shutdown')
  tell('exit')
}
