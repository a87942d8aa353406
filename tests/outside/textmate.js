// Prints the tokens of files as a TextMate engine finds them, as JSON: for each file, for each line,
// its tokens with their scopes.
//   node textmate.js MODULES EXTENSION FILE...
// MODULES has vscode-textmate and vscode-oniguruma in its node_modules; EXTENSION is a folder with a
// package.json that names the grammar.
const fs = require('fs')
const path = require('path')
const [modules, extension, ...files] = process.argv.slice(2)
const from = (name) => require(require.resolve(name, { paths: [modules] }))
const textmate = from('vscode-textmate')
const oniguruma = from('vscode-oniguruma')

async function main() {
  const wasm = require.resolve('vscode-oniguruma/release/onig.wasm', { paths: [modules] })
  await oniguruma.loadWASM(fs.readFileSync(wasm).buffer)
  const contributes = JSON.parse(fs.readFileSync(path.join(extension, 'package.json'))).contributes
  const named = contributes.grammars[0]
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: async (scope) => {
      if (scope !== named.scopeName) return null
      const file = path.join(extension, named.path)
      return textmate.parseRawGrammar(fs.readFileSync(file, 'utf8'), file)
    },
  })
  const grammar = await registry.loadGrammar(named.scopeName)
  const all = files.map((file) => {
    let state = textmate.INITIAL
    return fs.readFileSync(file, 'utf8').split('\n').map((line) => {
      const done = grammar.tokenizeLine(line, state)
      state = done.ruleStack
      return done.tokens
    })
  })
  process.stdout.write(JSON.stringify(all))
}

main().catch((error) => {
  console.error(error)
  process.exit(1)
})
