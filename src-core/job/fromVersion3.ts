/**
 * Lifts a document of version 3 to version 4. What version 4 adds (fixtures that the part does not lie flat on, bodies
 * that lie across) none of version 3 has, so nothing else changes.
 */
import type { Raw } from './versions.ts'

export const fromVersion3 = (document: Raw): Raw => ({ ...document, version: 4 })
