import type { RuleSetId, SystemId } from './types.ts'

export interface SystemName {
  readonly id: SystemId
  /** As shown, and as the schema wants it. */
  readonly title: string
  readonly sets: readonly RuleSetId[]
  readonly phases: 1 | 3
  readonly lineLineV: number
  readonly lineNeutralV: number | null
}

/** Voltage systems a job may name. Bands, colours and rules of each stand in the rule set, under the same id. */
export const SYSTEMS: readonly SystemName[] = [
  {
    id: 'split 120/240',
    title: '120/240 V single-phase 3-wire',
    sets: ['us', 'ca'],
    phases: 1,
    lineLineV: 240,
    lineNeutralV: 120,
  },
  { id: 'wye 208/120', title: '120/208 V three-phase 4-wire', sets: ['us', 'ca'], phases: 3, lineLineV: 208, lineNeutralV: 120 },
  { id: 'wye 480/277', title: '277/480 V three-phase 4-wire', sets: ['us', 'ca'], phases: 3, lineLineV: 480, lineNeutralV: 277 },
  { id: 'wye 600/347', title: '347/600 V three-phase 4-wire', sets: ['ca'], phases: 3, lineLineV: 600, lineNeutralV: 347 },
  {
    id: 'delta 240 high-leg',
    title: '120/240 V three-phase 4-wire high-leg delta',
    sets: ['us'],
    phases: 3,
    lineLineV: 240,
    lineNeutralV: 120,
  },
  { id: 'TN/TT 400/230', title: '230/400 V three-phase 4-wire', sets: ['intl'], phases: 3, lineLineV: 400, lineNeutralV: 230 },
  { id: 'single 230', title: '230 V single-phase 2-wire', sets: ['intl'], phases: 1, lineLineV: 230, lineNeutralV: 230 },
  {
    id: 'reduced 110 CTE',
    title: '110 V single-phase 3-wire, centre tap earthed',
    sets: ['intl'],
    phases: 1,
    lineLineV: 110,
    lineNeutralV: 55,
  },
  {
    id: 'AU/NZ 400/230',
    title: '230/400 V three-phase 4-wire, multiple earthed neutral',
    sets: ['intl'],
    phases: 3,
    lineLineV: 400,
    lineNeutralV: 230,
  },
]

/** What people also write; frequency and “Y” are taken off before. */
const key = (text: string): string =>
  text
    .toLowerCase()
    .replace(/\b(50|60) ?hz\b/g, '')
    .replace(/(\d)y\b/g, '$1')
    .replace(/[,]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim()

const BY_KEY: ReadonlyMap<string, SystemName> = new Map(
  SYSTEMS.flatMap(
    (s) =>
      [
        [key(s.title), s],
        [key(s.id), s],
        [s.id.toLowerCase(), s],
      ] as const,
  ),
)

/** The system a text names; null when it is none of them. */
export const systemNamed = (text: string): SystemName | null =>
  BY_KEY.get(key(text)) ?? BY_KEY.get(text.trim().toLowerCase()) ?? null

export const systemById = (id: SystemId): SystemName | null => SYSTEMS.find((s) => s.id === id) ?? null

/** Taken when nobody said: what a small supply usually is under the set. */
export const USUAL_SYSTEM: Record<RuleSetId, SystemId> = { us: 'split 120/240', ca: 'split 120/240', intl: 'TN/TT 400/230' }
