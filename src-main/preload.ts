/** Gives the page its host, verb by verb. Built to one CommonJS file, as a sandboxed preload must be. */
import { contextBridge, ipcRenderer } from 'electron'
import type { Host, HostVerb, Reply } from '../src-core/bridge/contract.ts'
import { channelOf } from './desktop/channels.ts'

/** A request whose arguments cannot even be sent is a fault like any other. */
async function ask<T>(verb: HostVerb, ...args: readonly unknown[]): Promise<Reply<T>> {
  try {
    return (await ipcRenderer.invoke(channelOf(verb), ...args)) as Reply<T>
  } catch (error) {
    const message = error instanceof Error ? error.message : String(error)
    return { ok: false, fault: { code: 'request.failed', message: `${verb}: ${message}` } }
  }
}

const host: Host = {
  info: () => ask('info'),
  listExamples: () => ask('listExamples'),
  readExample: (name) => ask('readExample', name),
  chooseOpen: () => ask('chooseOpen'),
  chooseSave: (suggestedName) => ask('chooseSave', suggestedName),
  listFolder: () => ask('listFolder'),
  fileInFolder: (name) => ask('fileInFolder', name),
  readJob: (file) => ask('readJob', file),
  writeJob: (file, text, expectedStamp) => ask('writeJob', file, text, expectedStamp),
  exportFile: (suggestedName, format, bytes) => ask('exportFile', suggestedName, format, bytes),
  exportPicture: (suggestedName, svg) => ask('exportPicture', suggestedName, svg),
}

contextBridge.exposeInMainWorld('host', host)
