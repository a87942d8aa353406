// Starts `waxwright lsp` when the first recipe file is opened, and tells it of every one. Without a
// language server, the colours are there as ever.
const vscode = require('vscode')
const { start } = require('./client.js')
const { RECIPES, capabilities, diagnostic, offer } = require('./features.js')

let server // what client.js started; undefined where there is none

/// Tells the server of every recipe that is open, the whole text each time, for it is short; and when
/// one is changed on the disk. `changed` is told after the server.
function follow(changed) {
  const { workspace } = vscode
  const named = (document) => ({ uri: document.uri.toString(), version: document.version })
  const ours = (run) => (document) => vscode.languages.match(RECIPES, document) && run(document)
  const open = ours((document) => server.tell('textDocument/didOpen', {
    textDocument: { ...named(document), languageId: 'candle', text: document.getText() },
  }))
  const change = ours((document) => {
    server.tell('textDocument/didChange', {
      textDocument: named(document), contentChanges: [{ text: document.getText() }],
    })
    changed()
  })
  const close = ours((document) =>
    server.tell('textDocument/didClose', { textDocument: { uri: document.uri.toString() } }))
  const disk = workspace.createFileSystemWatcher('**/*.candle')
  const onDisk = (type) => (uri) => { // the protocol's numbers: 1 made, 2 changed, 3 gone
    server.tell('workspace/didChangeWatchedFiles', { changes: [{ uri: uri.toString(), type }] })
    changed()
  }
  workspace.textDocuments.forEach(open)
  return [disk, disk.onDidCreate(onDisk(1)), disk.onDidChange(onDisk(2)), disk.onDidDelete(onDisk(3)),
    workspace.onDidOpenTextDocument(open), workspace.onDidCloseTextDocument(close),
    workspace.onDidChangeTextDocument((event) => change(event.document))]
}

/// A mark beside the language's name, at the foot of the editor: there are only colours, and why.
function onlyColours(why) {
  const mark = vscode.languages.createLanguageStatusItem('waxwright', RECIPES)
  mark.severity = vscode.LanguageStatusSeverity.Warning
  mark.text = 'Colours only'
  mark.detail = why
  mark.command = { title: 'Setting', command: 'workbench.action.openSettings', arguments: ['waxwright.command'] }
  return mark
}

exports.activate = async (context) => {
  const command = vscode.workspace.getConfiguration('waxwright').get('command')
  if (!command) return
  const found = vscode.languages.createDiagnosticCollection('waxwright')
  const log = vscode.window.createOutputChannel('Waxwright')
  context.subscriptions.push(found, log)
  const heard = (method, told) => {
    if (method === 'textDocument/publishDiagnostics')
      found.set(vscode.Uri.parse(told.uri), told.diagnostics.map(diagnostic))
  }
  let closing = false
  const ended = (why) => {
    if (closing) return
    log.appendLine(`no language server: ${why}`)
    context.subscriptions.push(onlyColours(why))
    found.clear()
  }
  context.subscriptions.push({ dispose: () => { closing = true } })
  server = start(command, ['lsp'], heard, ended)
  server.errors.on('data', (text) => closing || log.append(text.toString()))
  const folders = (vscode.workspace.workspaceFolders ?? []).map((each) =>
    ({ uri: each.uri.toString(), name: each.name }))
  const answer = await server.ask('initialize', {
    processId: process.pid, rootUri: folders[0]?.uri ?? null, workspaceFolders: folders, capabilities,
  })
  if (!answer) return
  server.tell('initialized', {})
  // A change of one file may change what the recipes of another weigh.
  const weights = new vscode.EventEmitter()
  context.subscriptions.push(weights, ...offer(answer.capabilities, server.ask, weights.event),
    ...follow(() => weights.fire()))
}

exports.deactivate = async () => {
  await server?.ask('shutdown')
  server?.tell('exit')
}
