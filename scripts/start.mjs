// `npm start`. TypeScript is run as it is, through tsx.
import { register } from 'tsx/esm/api'

register()
await import('../src-main/start.ts')
