import { designAir } from '../src/air/index.ts'
import { boxBody } from '../src/box/index.ts'
import type { FitRequest } from '../src/fit/layout/index.ts'
import { outsideMm } from '../src/fit/routes/outside.ts'
import type { BoxDesign, BoxSurvey, Job, Plug, RuleSetId } from '../src/job/index.ts'
import { type Prices, receptaclePart } from '../src/parts/index.ts'
import { plugOf, yardOf } from '../src/power/circuits/yards.fixture.ts'
import { rulesFor } from '../src/rules/index.ts'
import { designSkin } from '../src/skin/index.ts'

/** Invented prices by the metre, so that the objective means something: every conductor, raceway and channel has one. */
export const METRE_PRICES: Prices = {
  currency: 'USD',
  rows: new Proxy(
    {},
    {
      getOwnPropertyDescriptor: (_rows, id) => ({ value: price(String(id)), enumerable: true, configurable: true }),
      get: (_rows, id) => price(String(id)),
    },
  ),
}

/** 1 to 3 by the length of the name: unlike prices for unlike things. */
const price = (id: string) => ({ id, money: 1 + (id.length % 3), per: 'm', date: '2026-01-01', source: 'invented' })

export interface Wish {
  readonly machines: number
  readonly set?: RuleSetId
  readonly lengthFt?: number
  readonly high?: boolean
  readonly skin?: boolean
  readonly control?: 'none' | 'timers'
  readonly pins?: Job['pins']
  readonly survey?: Partial<BoxSurvey>
}

/** A yard of like heaters, its box designed, ready to be laid out. */
export function asked(wish: Wish): FitRequest {
  const set = wish.set ?? 'us'
  const intl = set === 'intl'
  const plugs: readonly Plug[] = Array.from({ length: wish.machines }, (_, i) =>
    plugOf({
      tag: `M${i + 1}`,
      powerW: i % 3 === 0 ? 1500 : 800,
      voltageV: intl ? 230 : 120,
      outlet: intl ? '16 A 3-pin' : i % 3 === 0 ? '5-20R' : '5-15R',
    }),
  )
  const yard = yardOf({
    set,
    system: intl ? 'TN/TT 400/230' : 'split 120/240',
    plugs,
    box: { lengthFt: wish.lengthFt ?? 20, heightKind: wish.high === true ? 'high' : 'standard' },
    staging: { control: wish.control ?? 'none' },
    job: { pins: wish.pins ?? [] },
  })
  return requestOf(yard.job, [yard.box], wish)
}

export function requestOf(job: Job, designs: readonly BoxDesign[], wish: Pick<Wish, 'skin' | 'survey'>): FitRequest {
  const rules = rulesFor(job.rules.set)
  const wanted = job.boxes.find((b) => b.id === designs[0]!.box)!
  const body = boxBody(wanted, wish.survey === undefined ? null : surveyOf(wanted.id, wish.survey))
  const skin =
    wish.skin === true
      ? designSkin({
          body,
          designs,
          rules: rules.build,
          pins: job.pins,
          vents: designAir({ job, body, designs }).vents,
          foam: false,
          snowDepthM: null,
          racewayMm: outsideMm,
          outletMm: (c) => receptaclePart(c, rules),
        })
      : null
  return { job, designs, body, skin, rules, prices: METRE_PRICES }
}

const surveyOf = (box: string, told: Partial<BoxSurvey>): BoxSurvey => ({
  box,
  by: null,
  on: null,
  lengthMm: null,
  widthMm: null,
  heightMm: null,
  innerLengthMm: null,
  innerWidthMm: null,
  innerHeightMm: null,
  ribPitchMm: null,
  innerFlatMm: null,
  outerFlatMm: null,
  ribDepthMm: null,
  sheetMm: null,
  firstRibMm: {},
  crossmemberPitchMm: null,
  bows: null,
  tareKg: null,
  weighedKg: null,
  plate: null,
  testedKg: null,
  pockets: null,
  dents: [],
  ...told,
})
