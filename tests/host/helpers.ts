/** Things the host's tests share. */
import { spawn } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { request } from 'node:http'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'vite'
import { onTestFinished } from 'vitest'
import { createBookPlace } from '../../src-main/services/book/bookPlace.ts'
import { createBook } from '../../src-main/services/book/listBook.ts'
import type { BookFile } from '../../src-main/services/book/shelf.ts'

export const ROOT = fileURLToPath(new URL('../..', import.meta.url))

/** The job book's list once all of it was read. */
export async function wholeBook(userData: string, folder: string): Promise<readonly BookFile[]> {
  return (await createBook(userData, createBookPlace(userData, folder)).whole(folder)).files
}

/** For hosts that are asked for no picture. */
export const noPictures = async (): Promise<never> => {
  throw new Error('nothing paints here')
}

/** An empty folder that goes when the test is over. */
export function scratchFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'evenswing-test-'))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }))
  return folder
}

export interface Ended {
  readonly code: number | null
  readonly signal: NodeJS.Signals | null
  readonly out: string
  readonly err: string
}

export interface RunOptions {
  readonly cwd?: string
  readonly env?: NodeJS.ProcessEnv
}

/** Runs a program to its end. */
export function runProgram(
  program: string,
  args: readonly string[],
  options: RunOptions = {},
): Promise<Ended> {
  return new Promise((done, fail) => {
    const child = spawn(program, args, { stdio: ['ignore', 'pipe', 'pipe'], ...options })
    let out = ''
    let err = ''
    child.stdout.setEncoding('utf8').on('data', (text: string) => (out += text))
    child.stderr.setEncoding('utf8').on('data', (text: string) => (err += text))
    child.once('error', fail)
    child.once('close', (code, signal) => done({ code, signal, out, err }))
  })
}

/** A TypeScript program as one plain file, for those that are started many times. */
export async function bundled(file: string): Promise<string> {
  const outDir = scratchFolder()
  await build({
    configFile: false,
    logLevel: 'silent',
    ssr: { noExternal: true },
    build: {
      ssr: file,
      outDir,
      rollupOptions: { output: { entryFileNames: 'program.mjs', codeSplitting: false } },
    },
  })
  return join(outDir, 'program.mjs')
}

export interface Answer {
  readonly status: number
  readonly headers: Record<string, string | string[] | undefined>
  readonly text: string
}

export interface Ask {
  readonly method?: string
  readonly path: string
  readonly headers?: Record<string, string>
  readonly body?: string
}

/** One request with exactly these headers, the path sent as it stands. */
export function ask(origin: string, { method = 'GET', path, headers = {}, body }: Ask): Promise<Answer> {
  const { hostname, port } = new URL(origin)
  return new Promise((done, fail) => {
    const sent = request({ hostname, port, method, path, headers, agent: false }, (response) => {
      let text = ''
      response.setEncoding('utf8').on('data', (chunk: string) => (text += chunk))
      response.on('end', () => done({ status: response.statusCode ?? 0, headers: response.headers, text }))
      response.on('error', fail)
    })
    sent.on('error', fail)
    sent.end(body)
  })
}

/** A job's text as far as the file services look at it; `mark` tells versions apart. */
export const jobText = (mark: string): string =>
  `${JSON.stringify({ format: 'evenswing-job', version: 1, title: mark })}\n`

/** This process's environment without some of its variables. */
export const environmentWithout = (...names: readonly string[]): NodeJS.ProcessEnv =>
  Object.fromEntries(Object.entries(process.env).filter(([name]) => !names.includes(name)))

/** Work done as a user whom permissions hold; who runs the tests as root is none. */
export async function asOrdinaryUser<T>(work: () => Promise<T>): Promise<T> {
  if (process.geteuid?.() !== 0) return work()
  process.seteuid!(65534)
  try {
    return await work()
  } finally {
    process.seteuid!(0)
  }
}
