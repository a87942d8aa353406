// Runs extension.js against an editor and a server that are only made up, and prints what is wrong.
//   node extension_check.js EXTENSION
// Looked at: the server is started and told of the files; its findings are shown, whatever pieces its
// bytes come in; what it offers is registered and answers; where the program is not there, or ends at
// once, or says nonsense, nothing is thrown and nothing is shown but why there are only colours.
const Module = require('module')
const fs = require('fs')
const os = require('os')
const path = require('path')

const extension = path.join(path.resolve(process.argv[2]), 'extension.js')
const folder = fs.mkdtempSync(path.join(os.tmpdir(), 'waxwright-extension-'))
const faults = []
let passed = 0
function same(what, one, other) {
  if (JSON.stringify(one) === JSON.stringify(other)) passed += 1
  else faults.push(`${what}: ${JSON.stringify(one)}, not ${JSON.stringify(other)}`)
}

// A server: it answers, and writes down what it is told. Its bytes go out in threes.
const SERVER = `#!${process.execPath}
const fs = require('fs')
let text = Buffer.alloc(0)
const out = (m) => {
  const body = Buffer.from(JSON.stringify({ jsonrpc: '2.0', ...m }))
  const all = Buffer.concat([Buffer.from('Content-Length: ' + body.length + '\\r\\n\\r\\n'), body])
  for (let at = 0; at < all.length; at += 3) fs.writeSync(1, all.subarray(at, at + 3))
}
const range = { start: { line: 0, character: 1 }, end: { line: 0, character: 3 } }
const answers = {
  initialize: { capabilities: { hoverProvider: true, completionProvider: { triggerCharacters: [':'] },
    documentFormattingProvider: true, codeActionProvider: true, definitionProvider: true,
    referencesProvider: true, renameProvider: { prepareProvider: true }, documentSymbolProvider: true,
    inlayHintProvider: true, documentHighlightProvider: true, foldingRangeProvider: true,
    workspaceSymbolProvider: true } },
  'textDocument/definition': { uri: 'file:///b.candle', range },
  'textDocument/references': [{ uri: 'file:///b.candle', range }, { uri: 'file:///c.candle', range }],
  'textDocument/prepareRename': { range, placeholder: 'soy' },
  'textDocument/rename': { changes: { 'file:///b.candle': [{ range, newText: 'z' }, { range, newText: 'z' }] } },
  'textDocument/documentSymbol': [{ name: 'r', kind: 5, range, selectionRange: range, children: [{ name: 's', kind: 7, range, selectionRange: range }] }],
  'textDocument/inlayHint': [{ position: range.start, label: '61 g', paddingLeft: true }],
  'textDocument/hover': { contents: { kind: 'markdown', value: 'hot wäx' } },
  'textDocument/completion': { isIncomplete: true, items: [{ label: 'soy', kind: 6,
    insertTextFormat: 2, insertTextMode: 1, additionalTextEdits: [{ range, newText: 'use waxes' }] }] },
  'textDocument/documentHighlight': [{ range, kind: 3 }],
  'textDocument/foldingRange': [{ startLine: 1, endLine: 4 }],
  'workspace/symbol': [{ name: 'r', kind: 5, location: { uri: 'file:///b.candle', range } }],
  'textDocument/formatting': [{ range, newText: 'x' }],
  'textDocument/codeAction': [{ title: 'mend', edit: { changes: { 'file:///a.candle': [{ range, newText: 'y' }] } } }],
  shutdown: null,
}
process.stdin.on('data', (chunk) => {
  text = Buffer.concat([text, chunk])
  for (;;) {
    const begin = text.indexOf('\\r\\n\\r\\n') + 4
    if (begin < 4) return
    const end = begin + Number(/: (\\d+)/.exec(text.toString('latin1', 0, begin))[1])
    if (text.length < end) return
    const m = JSON.parse(text.toString('utf8', begin, end))
    text = text.subarray(end)
    fs.appendFileSync(process.argv[1] + '.told', m.method + '\\n')
    if (m.method === 'textDocument/codeAction') fs.writeFileSync(process.argv[1] + '.range', JSON.stringify(m.params.range))
    if (m.params?.newName === 'wax') out({ id: m.id, error: { code: -32803, message: 'a wörd' } })
    else if (m.id !== undefined) out({ id: m.id, result: answers[m.method] })
    if (m.method === 'textDocument/didOpen') out({ method: 'textDocument/publishDiagnostics',
      params: { uri: m.params.textDocument.uri, diagnostics: [{ range, message: 'töo hot', severity: 2, code: 'over-ceiling', tags: [1],
        relatedInformation: [{ location: { uri: 'file:///b.candle', range }, message: 'since' }] }] } })
    if (m.method === 'exit') process.exit(0)
  }
})
`
const write = (name, text) => {
  fs.writeFileSync(path.join(folder, name), text, { mode: 0o755 })
  return path.join(folder, name)
}
const COMMANDS = {
  server: write('server', SERVER),
  missing: path.join(folder, 'missing'),
  ends: write('ends', '#!/bin/sh\necho "no such command" >&2\nexit 2\n'),
  headless: write('headless', '#!/bin/sh\nprintf "Nothing: 1\\r\\n\\r\\n{}"\nsleep 1\n'),
  empty: '',
}

function editor(command) {
  const shown = new Map()
  const marks = []
  const disk = {}
  const providers = {}
  const uri = { toString: () => 'file:///a.candle' }
  const document = { uri, languageId: 'candle', version: 1, getText: () => 'wäx' }
  const register = (name) => (language, provider, ...keys) => {
    providers[name] = provider
    provider.keys = keys
    if (language && language[0].language !== 'candle') faults.push(`${name} is not for recipes`)
    return { dispose() {} }
  }
  const event = () => ({ dispose() {} })
  class Plain { constructor(...values) { this.values = values } }
  const vscode = {
    Range: class { constructor(a, b, c, d) {
      this.start = { line: a, character: b }
      this.end = { line: c, character: d }
    } toJSON() { return [this.start, this.end] } },
    Diagnostic: class { constructor(range, message, severity) { Object.assign(this, { range, message, severity }) } },
    Hover: Plain, MarkdownString: Plain, CompletionItem: Plain, CodeAction: Plain, Location: Plain,
    DocumentSymbol: Plain, InlayHint: Plain, Position: Plain, SymbolInformation: Plain, SnippetString: Plain,
    CompletionList: Plain, DocumentHighlight: Plain, FoldingRange: Plain, DiagnosticRelatedInformation: Plain,
    EventEmitter: class {
      constructor() { this.listeners = []; this.event = (heard) => this.listeners.push(heard) }
      fire() { this.listeners.forEach((heard) => heard()) }
      dispose() {}
    },
    LanguageStatusSeverity: { Warning: 1 },
    CodeActionKind: { QuickFix: 'quickfix' },
    WorkspaceEdit: class { set(at, list) { this.edits = [at.toString(), list.length] } },
    TextEdit: { replace: (range, text) => text },
    Uri: { parse: (text) => ({ toString: () => text }) },
    languages: {
      match: (list, one) => list.some((each) => each.language === one.languageId) * 10,
      createLanguageStatusItem: () => (marks.push({ dispose() {} }), marks.at(-1)),
      createDiagnosticCollection: () => ({
        set: (at, list) => shown.set(at.toString(), list), clear: () => shown.clear(), dispose() {} }),
      registerHoverProvider: register('hover'),
      registerCompletionItemProvider: register('completion'),
      registerDocumentFormattingEditProvider: register('formatting'),
      registerCodeActionsProvider: register('actions'),
      registerDefinitionProvider: register('definition'),
      registerReferenceProvider: register('references'),
      registerRenameProvider: register('rename'),
      registerDocumentSymbolProvider: register('symbols'),
      registerInlayHintsProvider: register('hints'),
      registerDocumentHighlightProvider: register('highlights'),
      registerFoldingRangeProvider: register('folds'),
      registerWorkspaceSymbolProvider: (provider) => register('named')(undefined, provider),
    },
    window: { createOutputChannel: () => ({ append() {}, appendLine() {}, dispose() {} }) },
    workspace: {
      textDocuments: [document, { ...document, languageId: 'plaintext' }],
      getConfiguration: () => ({ get: () => command }),
      createFileSystemWatcher: () => ({ dispose() {}, onDidCreate: event, onDidDelete: event,
        onDidChange: (heard) => { disk.change = heard; return event() } }),
      onDidOpenTextDocument: event, onDidChangeTextDocument: event, onDidCloseTextDocument: event,
    },
  }
  return { vscode, shown, marks, disk, providers, document }
}

const wait = (ms) => new Promise((resolve) => setTimeout(resolve, ms))

async function run(name) {
  const made = editor(COMMANDS[name])
  const load = Module._load
  Module._load = (request, ...rest) => (request === 'vscode' ? made.vscode : load(request, ...rest))
  Object.keys(require.cache).forEach((each) => delete require.cache[each])
  const ours = require(extension)
  Module._load = load
  const context = { subscriptions: [] }
  await Promise.race([ours.activate(context), wait(3000).then(() => faults.push(`${name}: no end`))])
  return { ...made, ...ours, context }
}

async function main() {
  const whys = { missing: 'on the path', ends: 'ended with 2', headless: 'something else', empty: undefined }
  for (const [name, why] of Object.entries(whys)) {
    const { shown, providers, marks } = await run(name)
    same(`${name}: what is registered and shown`, [Object.keys(providers), [...shown]], [[], []])
    same(`${name}: marks`, marks.map((mark) => mark.detail.includes(why)), why ? [true] : [])
  }
  const { shown, providers, marks, disk, document, deactivate, context } = await run('server')
  for (let tries = 0; tries < 100 && !shown.size; ++tries) await wait(50)
  const told = (shown.get('file:///a.candle') ?? [])[0] ?? {}
  same('the finding', [told.message, told.severity, told.code, told.tags, told.relatedInformation[0].values[1]],
    ['töo hot', 1, 'over-ceiling', [1], 'since'])
  const at = { line: 0, character: 2 }
  same('hover', await providers.hover.provideHover(document, at), { values: [{ values: ['hot wäx'] }, null] })
  const [items, more] = (await providers.completion.provideCompletionItems(document, at)).values
  same('completion', [items[0].values, items[0].insertText.values, more, providers.completion.keys],
    [['soy', 5], ['soy'], true, [':']])
  same('what goes with it', [items[0].additionalTextEdits, items[0].keepWhitespace], [['use waxes'], true])
  same('formatting', await providers.formatting.provideDocumentFormattingEdits(document, {}), ['x'])
  const actions = await providers.actions.provideCodeActions(document, told.range, { diagnostics: [told] })
  same('actions', [actions[0].values[0], actions[0].edit.edits], ['mend', ['file:///a.candle', 1]])
  const places = [await providers.definition.provideDefinition(document, at),
    await providers.references.provideReferences(document, at, { includeDeclaration: true })]
  same('places', places.map((list) => list.map((one) => one.values[0].toString())),
    [['file:///b.candle'], ['file:///b.candle', 'file:///c.candle']])
  same('what is renamed', (await providers.rename.prepareRename(document, at)).end, { line: 0, character: 3 })
  same('another name', (await providers.rename.provideRenameEdits(document, at, 'z')).edits, ['file:///b.candle', 2])
  const refused = await providers.rename.provideRenameEdits(document, at, 'wax').catch((error) => error.message)
  same('a name that is refused', refused, 'a wörd')
  same('highlights', (await providers.highlights.provideDocumentHighlights(document, at))[0].values[1], 2)
  same('folds', (await providers.folds.provideFoldingRanges(document))[0].values, [1, 4])
  same('named', (await providers.named.provideWorkspaceSymbols('r'))[0].values.slice(0, 3), ['r', 4, ''])
  const symbols = await providers.symbols.provideDocumentSymbols(document)
  same('symbols', symbols.map((s) => [s.values[0], s.values[2], s.children[0].values[2]]), [['r', 4, 6]])
  const hints = await providers.hints.provideInlayHints(document, told.range)
  same('hints', [hints[0].values[1], hints[0].paddingLeft], ['61 g', true])
  const range = JSON.parse(fs.readFileSync(`${COMMANDS.server}.range`))
  same('the range as it goes over', range, { start: { line: 0, character: 1 }, end: { line: 0, character: 3 } })
  let anew = 0
  providers.hints.onDidChangeInlayHints(() => { anew += 1 })
  disk.change(document.uri)
  same('hints that are to be asked for anew', anew, 1)
  await deactivate()
  context.subscriptions.forEach((each) => each.dispose())
  await wait(300)
  const methods = fs.readFileSync(`${COMMANDS.server}.told`, 'utf8').trim().split('\n')
  same('what the server was told first', methods.slice(0, 3), ['initialize', 'initialized', 'textDocument/didOpen'])
  same('what it was told last', methods.slice(-3), ['workspace/didChangeWatchedFiles', 'shutdown', 'exit'])
  same('marks', marks, [])
}

process.on('unhandledRejection', (error) => faults.push(`thrown: ${error.stack}`))
main().catch((error) => faults.push(error.stack)).then(() => {
  fs.rmSync(folder, { recursive: true })
  faults.forEach((fault) => console.log(`extension: ${fault}`))
  console.log(`extension: ${passed} passed, ${faults.length} failed`)
  process.exit(faults.length ? 1 : 0)
})
