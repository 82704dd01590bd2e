import type { BoxDesign, BoxWanted, Offer, Plug } from '../../job/index.ts'
import { formatQuantity, type Judgement, type Put, type Step, type Working } from '../../kernel/index.ts'
import type { System } from '../../rules/index.ts'
import type { Inputs } from '../inputs.ts'
import type { Bands } from './clearing.ts'
import type { BoxLevels } from './levels.ts'
import type { FaultTemperatures } from './temperatures.ts'

/** One box in one phase, with all that its findings are made from. */
export interface Asked {
  readonly inputs: Inputs
  readonly box: BoxDesign
  readonly wanted: BoxWanted | undefined
  readonly system: System
  /** Box and phase. */
  readonly scope: string
  /** Unique name of a thing of this box, for workings: the thing alone where the design holds one box and phase. */
  readonly name: (thing: string) => string
  readonly plugs: ReadonlyMap<string, Plug>
  readonly offers: ReadonlyMap<string, Offer>
  readonly temperatures: FaultTemperatures
  readonly bands: Bands
  readonly positions: readonly BoxLevels[]
}

export const inAmpere = (value: number): string => formatQuantity(value, 'A')

/** A time as people say it; Infinity is “never”. */
export const inSeconds = (value: number): string =>
  value === Infinity ? 'never' : value >= 120 ? `${formatQuantity(value / 60, 'min')}` : formatQuantity(value, 's')

const MODE_WORDS = { network: 'on the network', 'own set': 'on the own set', neighbour: 'on the neighbour’s supply' } as const
export const onSource = (levels: BoxLevels): string => MODE_WORDS[levels.mode]

/** A working whose lines are made when somebody reads them: most never are. */
export function lazyWorking(task: {
  readonly id: string
  readonly title: string
  readonly steps: () => readonly Step[]
  readonly judgement?: Judgement
  readonly notes?: readonly string[]
}): Working {
  let made: readonly Step[] | null = null
  return {
    id: task.id,
    title: task.title,
    get steps() {
      made ??= task.steps()
      return made
    },
    ...(task.judgement === undefined ? {} : { judgement: task.judgement }),
    ...(task.notes === undefined ? {} : { notes: task.notes }),
  }
}

export const ampere = (symbol: string, value: number): Put =>
  value === Infinity ? { symbol, value: 'any that can flow', unit: '' } : { symbol, value, unit: 'A' }

/** A time; Infinity is a word, since a number that is written down must be one. */
export const seconds = (symbol: string, value: number): Put =>
  value === Infinity ? { symbol, value: 'never', unit: '' } : { symbol, value, unit: 's' }
