import type { MeasuresCost } from '../air/measures/result.ts'
import type { BoxBody } from '../box/index.ts'
import type { HaulResult } from '../haul/result.ts'
import { type BoxBuild, type BoxDesign, type Design, type PlacedItem, wirewayPieces } from '../job/index.ts'
import { type Finding, type Memory, noMemory, type Working } from '../kernel/index.ts'
import { type Prices, wholeBuild } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'
import type { BoxSkin, SkinResult } from '../skin/result.ts'
import { racewaySheets, type StandOff } from './bends/raceway-sheet.ts'
import { priced } from './bill/bill.ts'
import { billNeeds } from './bill/lines.ts'
import { byText } from './figures.ts'
import { judgeShop, notDesigned } from './findings.ts'
import { wallHoles } from './holes.ts'
import { hoursSheet } from './hours/hours.ts'
import { knockouts } from './knockouts.ts'
import { measureNeeds } from './measures.ts'
import { labelRows, serialRows, torqueRows } from './papers.ts'
import type { BoxShop, NutsOf, ShopFactors, ShopResult } from './result.ts'
import { sectionCuts } from './sections.ts'
import { buildSteps } from './sequence.ts'
import { framePieces } from './snow-frame.ts'
import { longestMm, sawOf } from './stock.ts'
import { wirePulls, wireTotals } from './wires.ts'

export interface ShopInputs {
  readonly design: Design
  /** By box. */
  readonly bodies: Readonly<Record<string, BoxBody>>
  readonly rules: RuleSet
  readonly prices: Prices
  /** Frames and plates to saw, and the cautions of cutting. */
  readonly skin: SkinResult
  /** What lifting counted; null: not answered. */
  readonly haul: HaulResult | null
  /** What keeps each box dry and cool, by box; absent: nothing beyond what is cut and hung. */
  readonly measures?: Readonly<Record<string, MeasuresCost>>
  /** Outside diameter of a raceway. */
  readonly racewayMm: (kind: string, trade: string) => number
  /** Bolts of channel nuts, by box; absent: the strut sheet was not asked, and the torque sheet says so. */
  readonly nuts?: Readonly<Record<string, readonly NutsOf[]>>
  /** What the shop knows of itself. */
  readonly factors?: ShopFactors
  /** Keeps cutting plans whose pieces did not change. */
  readonly memory?: Memory
}

export interface ShopAnswer {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly result: ShopResult
}

/**
 * What do we buy, cut and do? One set of sheets for each box that has a build, for all its phases together: a box is built once. A box
 * without a build, or without a body, is unknown.
 */
export function answerShop(inputs: ShopInputs): ShopAnswer {
  const names = [...new Set(inputs.design.boxes.map((b) => b.box))].toSorted()
  const answers = names.map((box) => answerBox(inputs, box))
  return {
    findings: answers.flatMap((a) => a.findings),
    workings: answers.flatMap((a) => a.workings),
    result: { boxes: answers.flatMap((a) => (a.box === null ? [] : [a.box])) },
  }
}

interface BoxAnswer {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly box: BoxShop | null
}

function answerBox(inputs: ShopInputs, box: string): BoxAnswer {
  const given = inputs.design.builds.find((b) => b.box === box)
  const build = given === undefined ? undefined : ordered(given)
  const body = inputs.bodies[box]
  const skin = inputs.skin.boxes.find((b) => b.box === box)
  const whole = wholeBuild(inputs.design.boxes.filter((b) => b.box === box))
  if (build === undefined || body === undefined || skin === undefined || whole === null)
    return { findings: [notDesigned(box, build === undefined ? 'layout' : 'steel box')], workings: [], box: null }
  const sheets = sheetsOf(inputs, { build, body, skin, whole })
  const judged = judgeShop({
    sheets,
    build,
    body,
    whole,
    rules: inputs.rules,
    saw: sawOf(inputs.factors ?? {}),
    lifted: inputs.haul?.boxes.find((b) => b.box === box)?.items ?? null,
  })
  return { ...judged, box: sheets }
}

/** Rows in the order of their names, so that no sheet hangs on the order of the design. */
function ordered(build: BoxBuild): BoxBuild {
  const byId = <T extends { readonly id: string }>(rows: readonly T[]): readonly T[] =>
    rows.toSorted((a, b) => byText(a.id, b.id))
  const { fit, skin } = build
  return {
    ...build,
    fit: {
      ...fit,
      items: byId(fit.items),
      strut: byId(fit.strut),
      raceways: byId(fit.raceways),
      bonds: byId(fit.bonds),
    },
    skin: { ...skin, openings: byId(skin.openings) },
  }
}

/** Along which of x, y, z a thing stands off the side of the box it hangs on, and how far; null where it is none of the box. */
function standOff(item: PlacedItem | undefined): StandOff | null {
  if (item === undefined) return null
  const along = ({ left: 1, right: 1, 'blind end': 0, 'door end': 0, roof: 2, floor: 2 } as const)[item.side]
  return { along, deepMm: item.sizeMm[along] }
}

interface Of {
  readonly build: BoxBuild
  readonly body: BoxBody
  readonly skin: BoxSkin
  readonly whole: BoxDesign
}

function sheetsOf(inputs: ShopInputs, { build, body, skin, whole }: Of): BoxShop {
  const { rules, prices, racewayMm, factors = {}, memory = noMemory } = inputs
  const { fit } = build
  const saw = sawOf(factors)
  const snowFrame = inputs.haul?.boxes.find((b) => b.box === build.box)?.snowFrame ?? null
  const nuts = inputs.nuts?.[build.box] ?? null
  const measures = measureNeeds(inputs.measures?.[build.box])
  const raceways = racewaySheets({
    raceways: fit.raceways,
    rules,
    racewayMm,
    standOff: (id) => standOff(fit.items.find((i) => i.id === id)),
    stickMm: longestMm('raceway', rules) - 2 * saw.trimMm,
  })
  const cuts = memory.recall(
    `cuts of ${build.box}`,
    {
      fit: { strut: fit.strut, items: wirewayPieces(fit.items) },
      frames: [...skin.pieces, ...framePieces(snowFrame)],
      raceways,
      rules: { id: rules.id },
      prices,
      saw,
      rack: factors.rack ?? [],
    },
    sectionCuts,
  )
  const wires = wirePulls({ fit, whole, rules })
  const labels = labelRows({ fit, whole, wires })
  const hours = hoursSheet({
    body,
    build,
    whole,
    raceways,
    cuts,
    wires,
    labelsCount: labels.reduce((sum, l) => sum + l.count, 0),
    snowFrame,
    measures,
    rules,
    prices,
    own: factors.hours ?? {},
  })
  return {
    box: build.box,
    type: body.type,
    bill: priced(
      billNeeds({
        body,
        fit,
        openings: build.skin.openings,
        whole,
        frames: skin.pieces,
        snowFrame,
        measures,
        cuts,
        raceways,
        wires,
        nuts,
      }),
      prices,
    ),
    cuts,
    raceways,
    wires,
    wireTotals: wireTotals(wires),
    holes: wallHoles(body, build),
    knockouts: knockouts(fit),
    hours,
    steps: buildSteps({ build, skinSteps: skin.steps, hours, paintM2: hours.paintM2, snowFrame }),
    torque: torqueRows({ fit, whole, nuts }),
    serials: serialRows({ body, fit, whole }),
    labels,
  }
}
