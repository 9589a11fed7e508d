// The inside of a stand-in for Electron's utility process: its one port, as the program in it knows it.
import { EventEmitter } from 'node:events'
import { pathToFileURL } from 'node:url'

const port = new EventEmitter()
port.postMessage = (message) => void process.send(message)
process.parentPort = port
// As in the real one, messages wait for the first who listens.
port.on('newListener', (name) => {
  if (name === 'message' && port.listenerCount('message') === 0)
    process.on('message', (data) => setImmediate(() => port.emit('message', { data, ports: [] })))
})
await import(pathToFileURL(process.argv[2]).href)
