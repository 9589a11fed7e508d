/** Set up before each test file: a suite that is green is green again, since each run draws the same. */
import fc from 'fast-check'
import { SEED } from './seed.ts'

// More runs a property find rarer faults; a run of thousands belongs before a release.
fc.configureGlobal({ numRuns: Number(process.env['EVENSWING_RUNS'] ?? 100), seed: SEED })
