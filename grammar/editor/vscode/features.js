// What the editor can ask a language server: each in the editor's values and the protocol's.
const vscode = require('vscode')

/// Files and new texts; not what an editor shows of a repository, where nothing can be changed.
const RECIPES = ['file', 'untitled'].map((scheme) => ({ language: 'candle', scheme }))
exports.RECIPES = RECIPES

const place = ({ line, character }) => ({ line, character })
const plain = ({ start, end }) => ({ start: place(start), end: place(end) })
const point = (p) => new vscode.Position(p.line, p.character)
const range = (r) => new vscode.Range(r.start.line, r.start.character, r.end.line, r.end.character)
const edits = (list) => (list ?? []).map((e) => vscode.TextEdit.replace(range(e.range), e.newText))
const words = (v) => new vscode.MarkdownString([].concat(v).map((one) => one.value ?? one).join('\n\n'))
const location = (l) => new vscode.Location(vscode.Uri.parse(l.uri), range(l.range))
const named = (document) => ({ uri: document.uri.toString() })
const here = (document, position) => ({ textDocument: named(document), position: place(position) })

function workspaceEdit(edit) {
  const made = new vscode.WorkspaceEdit()
  for (const [uri, list] of Object.entries(edit.changes ?? {}))
    made.set(vscode.Uri.parse(uri), edits(list))
  return made
}
function completion(item) {
  const { textEdit, documentation, detail, sortText, filterText } = item
  const made = new vscode.CompletionItem(item.label, (item.kind ?? 1) - 1)
  const text = textEdit?.newText ?? item.insertText ?? item.label
  made.insertText = item.insertTextFormat === 2 ? new vscode.SnippetString(text) : text
  made.additionalTextEdits = edits(item.additionalTextEdits) // what a name of the library needs: `use wicks`
  made.keepWhitespace = item.insertTextMode === 1
  if (textEdit) made.range = range(textEdit.range ?? textEdit.replace)
  if (documentation) made.documentation = words(documentation)
  if (/: (\$[01])?$/.test(text)) // `wax: ` is followed by what may stand there
    made.command = { title: '', command: 'editor.action.triggerSuggest', arguments: [{ auto: true }] }
  return Object.assign(made, { detail, sortText, filterText })
}
function symbol(s) {
  const kind = s.kind - 1 // the protocol counts from 1
  const made = new vscode.DocumentSymbol(s.name, s.detail ?? '', kind, range(s.range), range(s.selectionRange))
  return Object.assign(made, { children: (s.children ?? []).map(symbol) })
}

function refuse(why) {
  throw new Error(why) // the editor shows it beside the name
}

/// A finding as the editor shows it.
exports.diagnostic = (each) => {
  const made = new vscode.Diagnostic(range(each.range), each.message, (each.severity ?? 1) - 1)
  const relatedInformation = (each.relatedInformation ?? []).map((other) =>
    new vscode.DiagnosticRelatedInformation(location(other.location), other.message))
  return Object.assign(made, { source: each.source, code: each.code, tags: each.tags, relatedInformation })
}

/// What the server has to know of us, for answers of these shapes.
exports.capabilities = {
  textDocument: {
    completion: { completionItem: { snippetSupport: true } },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ['quickfix'] } } },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    hover: { contentFormat: ['markdown'] },
    publishDiagnostics: { relatedInformation: true },
    rename: { prepareSupport: true },
  },
}

/// What helps in writing, and changes the text.
function offerWriting(can, ask, add) {
  const { languages } = vscode
  add(can.completionProvider, languages.registerCompletionItemProvider, {
    async provideCompletionItems(document, position) {
      const list = await ask('textDocument/completion', here(document, position))
      return new vscode.CompletionList((list?.items ?? list ?? []).map(completion), list?.isIncomplete)
    },
  }, ...(can.completionProvider?.triggerCharacters ?? []))
  add(can.documentFormattingProvider, languages.registerDocumentFormattingEditProvider, {
    provideDocumentFormattingEdits: async (document, options) =>
      edits(await ask('textDocument/formatting', { textDocument: named(document), options })),
  })
  add(can.codeActionProvider, languages.registerCodeActionsProvider, {
    async provideCodeActions(document, area, given) {
      const diagnostics = given.diagnostics.map(({ message, source, code, severity, range: where }) =>
        ({ message, source, code, severity: severity + 1, range: plain(where) }))
      const asked = { textDocument: named(document), range: plain(area), context: { diagnostics } }
      const actions = (await ask('textDocument/codeAction', asked)) ?? []
      return actions.filter((each) => each.edit).map(({ title, edit, isPreferred }) =>
        Object.assign(new vscode.CodeAction(title, vscode.CodeActionKind.QuickFix),
          { edit: workspaceEdit(edit), isPreferred }))
    },
  })
  add(can.renameProvider, languages.registerRenameProvider, {
    async prepareRename(document, position) {
      const found = await ask('textDocument/prepareRename', here(document, position), refuse)
      return found ? range(found.range ?? found) : refuse('nothing here can be given another name')
    },
    async provideRenameEdits(document, position, newName) {
      const edit = await ask('textDocument/rename', { ...here(document, position), newName }, refuse)
      return edit && workspaceEdit(edit)
    },
  })
}

/// What tells of a text. `onDidChangeInlayHints` is when it may tell something else than before.
function offerReading(can, ask, add, onDidChangeInlayHints) {
  const { languages } = vscode
  add(can.hoverProvider, languages.registerHoverProvider, {
    async provideHover(document, position) {
      const hover = await ask('textDocument/hover', here(document, position))
      return hover && new vscode.Hover(words(hover.contents), hover.range && range(hover.range))
    },
  })
  add(can.definitionProvider, languages.registerDefinitionProvider, {
    provideDefinition: async (document, position) =>
      [].concat((await ask('textDocument/definition', here(document, position))) ?? []).map(location),
  })
  add(can.referencesProvider, languages.registerReferenceProvider, {
    async provideReferences(document, position, context) {
      const asked = { ...here(document, position), context }
      return ((await ask('textDocument/references', asked)) ?? []).map(location)
    },
  })
  add(can.documentHighlightProvider, languages.registerDocumentHighlightProvider, {
    provideDocumentHighlights: async (document, position) =>
      ((await ask('textDocument/documentHighlight', here(document, position))) ?? []).map((each) =>
        new vscode.DocumentHighlight(range(each.range), (each.kind ?? 1) - 1)),
  })
  add(can.foldingRangeProvider, languages.registerFoldingRangeProvider, {
    provideFoldingRanges: async (document) =>
      ((await ask('textDocument/foldingRange', { textDocument: named(document) })) ?? []).map((fold) =>
        new vscode.FoldingRange(fold.startLine, fold.endLine)),
  })
  add(can.documentSymbolProvider, languages.registerDocumentSymbolProvider, {
    provideDocumentSymbols: async (document) =>
      ((await ask('textDocument/documentSymbol', { textDocument: named(document) })) ?? []).map(symbol),
  })
  add(can.inlayHintProvider, languages.registerInlayHintsProvider, {
    onDidChangeInlayHints,
    async provideInlayHints(document, area) {
      const asked = { textDocument: named(document), range: plain(area) }
      return ((await ask('textDocument/inlayHint', asked)) ?? []).map((hint) =>
        Object.assign(new vscode.InlayHint(point(hint.position), hint.label),
          { paddingLeft: hint.paddingLeft, paddingRight: hint.paddingRight }))
    },
  })
}

/// Registers what the server says it can do; what has to be taken back is given. `changed`: an event of
/// the editor's, when any recipe is another.
exports.offer = (can, ask, changed) => {
  const made = []
  const add = (has, register, provider, ...more) => has && made.push(register(RECIPES, provider, ...more))
  offerWriting(can, ask, add)
  offerReading(can, ask, add, changed)
  if (can.workspaceSymbolProvider) made.push(vscode.languages.registerWorkspaceSymbolProvider({
    provideWorkspaceSymbols: async (query) =>
      ((await ask('workspace/symbol', { query })) ?? []).map((each) => new vscode.SymbolInformation(
        each.name, each.kind - 1, each.containerName ?? '', location(each.location))),
  }))
  return made
}
