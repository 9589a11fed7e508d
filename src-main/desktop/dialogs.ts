/** The system's file dialogs. */
import { JOB_ENDING } from '../../src-core/job/fileEnding.ts'
import { BrowserWindow, dialog, type FileFilter, type SaveDialogOptions } from 'electron'
import type { ExportFormat } from '../../src-core/bridge/contract.ts'
import type { Dialogs } from '../services/hostServices.ts'

const JOB_FILTERS: FileFilter[] = [
  { name: 'Evenswing jobs', extensions: [JOB_ENDING.slice(1), 'json'] },
  { name: 'All files', extensions: ['*'] },
]
const EXPORT_NAMES: Record<ExportFormat, string> = {
  svg: 'SVG drawing',
  pdf: 'PDF sheet',
  dxf: 'DXF drawing',
  png: 'PNG picture',
  json: 'Shop library',
}

export function systemDialogs(): Dialogs {
  return {
    async open() {
      const options = { title: 'Open a job', filters: JOB_FILTERS, properties: ['openFile' as const] }
      const window = front()
      const result = await (window ? dialog.showOpenDialog(window, options) : dialog.showOpenDialog(options))
      return result.canceled ? null : (result.filePaths[0] ?? null)
    },
    async folder() {
      const options = {
        title: 'Folder of the job book',
        properties: ['openDirectory' as const, 'createDirectory' as const],
      }
      const window = front()
      const result = await (window ? dialog.showOpenDialog(window, options) : dialog.showOpenDialog(options))
      return result.canceled ? null : (result.filePaths[0] ?? null)
    },
    saveJob: (suggestedName) =>
      save({ title: 'Save the job', defaultPath: suggestedName, filters: JOB_FILTERS }),
    saveExport: (suggestedName, format) =>
      save({
        title: 'Save the sheet',
        defaultPath: suggestedName,
        filters: [{ name: EXPORT_NAMES[format], extensions: [format] }],
      }),
  }
}

async function save(options: SaveDialogOptions): Promise<string | null> {
  const window = front()
  const all: SaveDialogOptions = { ...options, properties: ['showOverwriteConfirmation', 'createDirectory'] }
  const result = await (window ? dialog.showSaveDialog(window, all) : dialog.showSaveDialog(all))
  return result.canceled || result.filePath === '' ? null : result.filePath
}

const front = (): BrowserWindow | undefined =>
  BrowserWindow.getFocusedWindow() ?? BrowserWindow.getAllWindows()[0]
