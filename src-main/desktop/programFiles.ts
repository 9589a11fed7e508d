/** Where the program's own files lie: in its folder, or packaged in an archive with some of them beside it. */
import { join } from 'node:path'

export interface ProgramFiles {
  readonly preload: string
  readonly renderer: string
  readonly examples: string
}

/** `resources`: the folder beside the packaged archive, or null where the program is not packaged. */
export const programFiles = (root: string, resources: string | null): ProgramFiles => ({
  preload: join(root, 'out/preload/index.cjs'),
  renderer: join(root, 'out/renderer'),
  examples: join(resources ?? root, 'examples'),
})
