// Speaks the Language Server Protocol with a program, over its standard input and output.
const { spawn } = require('child_process')

/// Starts the program. `heard` takes what it tells unasked, `ended` why there is no server any more;
/// both at any time, and `ended` once at most.
exports.start = (command, words, heard, ended) => {
  const server = spawn(command, words)
  const waiting = new Map() // who waits for an answer, by the number of the request
  let last = 0
  let over = false
  let unread = Buffer.alloc(0)

  function send(message) {
    const body = JSON.stringify({ jsonrpc: '2.0', ...message })
    if (!over) server.stdin.write(`Content-Length: ${Buffer.byteLength(body)}\r\n\r\n${body}`)
  }
  function stop(why) {
    if (over) return
    over = true
    server.kill()
    waiting.forEach((answer) => answer({}))
    waiting.clear()
    ended(why)
  }
  function take(message) {
    if (message.method && message.id !== undefined) send({ id: message.id, result: null })
    else if (message.method) heard(message.method, message.params)
    else {
      waiting.get(message.id)?.(message)
      waiting.delete(message.id)
    }
  }
  // Messages come in any pieces: a head, an empty line, and as many bytes as the head says.
  function read(chunk) {
    unread = Buffer.concat([unread, chunk])
    for (;;) {
      const begin = unread.indexOf('\r\n\r\n') + 4
      if (begin < 4) return
      const length = /content-length: *(\d+)/i.exec(unread.toString('latin1', 0, begin))
      if (!length) return stop('it says something else than the protocol')
      const end = begin + Number(length[1])
      if (unread.length < end) return
      const body = unread.toString('utf8', begin, end)
      unread = unread.subarray(end)
      take(JSON.parse(body))
    }
  }

  server.on('error', (error) => stop(error.code === 'ENOENT'
    ? `no \`${command}\` on the path` : error.message))
  server.on('exit', (status) => stop(`it ended with ${status}`))
  server.stdin.on('error', () => {}) // `exit` tells
  server.stdout.on('data', read)
  return {
    stop,
    errors: server.stderr,
    tell: (method, params) => send({ method, params }),
    /// The answer; null where there is none. Where the server refuses, what `refused` makes of its words.
    ask: async (method, params, refused = () => null) => {
      send({ id: ++last, method, params })
      const told = await new Promise((answer) => (over ? answer({}) : waiting.set(last, answer)))
      return told.error ? refused(told.error.message) : told.result ?? null
    },
  }
}
