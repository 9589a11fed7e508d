/** The system of units that the fields below show, handed down by whoever knows the job: a field never asks for it. */
import { createContext } from 'svelte'
import type { DisplayUnits } from '../../src-core/units/format.ts'

const [use, provide] = createContext<() => DisplayUnits>()

/** Asked anew each time, so that fields follow a change of system. Throws where nobody above has given it. */
export const useShownUnits = use

export const provideShownUnits = provide
