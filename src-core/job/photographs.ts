/** Faults of the pictures that a job holds: that they are what they say, and that their ties place them. */
import { keptOf } from '../geometry/kept.ts'
import { bytesOfBase64 } from '../picture/base64.ts'
import { readPictureHeader, uprightSize } from '../picture/header.ts'
import { tieFault } from '../picture/planMap.ts'
import type { JobFault } from './fault.ts'
import { LIMITS, type Job, type Picture } from './schema.ts'

export function photographFaults({ part, runs }: Job): JobFault[] {
  const faults: JobFault[] = []
  const look = (picture: Picture | null | undefined, path: string) => {
    const found = picture ? pictureFault(picture) : null
    if (found) faults.push({ path: `${path}.${found.field}`, message: found.message })
  }
  look(part.photograph?.picture, 'part.photograph.picture')
  runs?.forEach((run, i) => look(run.photograph, `runs[${i}].photograph`))
  const tied = part.photograph ? tieFault(part.photograph.ties) : null
  if (tied !== null) faults.push({ path: 'part.photograph.ties', message: tied })
  return faults
}

interface PictureFault {
  readonly field: 'data' | 'type' | 'width' | 'height'
  readonly message: string
}

/** Kept per picture object, which is immutable and large. */
const pictureFault: (picture: Picture) => PictureFault | null = keptOf(findPictureFault)

function findPictureFault({ data, type, width, height }: Picture): PictureFault | null {
  const bytes = bytesOfBase64(data)
  if (!bytes) return { field: 'data', message: 'is not base64' }
  const header = readPictureHeader(bytes)
  if (!header.ok) return { field: 'data', message: `is no picture: ${header.reason} (byte ${header.at})` }
  if (header.type !== type) return { field: 'type', message: `is ${type}, but the picture is ${header.type}` }
  const size = uprightSize(header)
  if (size.width !== width)
    return { field: 'width', message: `is ${width}, but the picture is ${size.width} pixels across` }
  if (size.height !== height)
    return { field: 'height', message: `is ${height}, but the picture is ${size.height} pixels high` }
  if (width * height > LIMITS.pictureArea)
    return { field: 'data', message: `unpacks to more than ${LIMITS.pictureArea / 1e6} million pixels` }
  return null
}
