import type { BoxBody } from '../box/index.ts'
import type { BoxBuild, BoxDesign, Design, Job } from '../job/index.ts'
import { Fault, type Finding, gathered, put, type Working, worst } from '../kernel/index.ts'
import { type Prices, partById, shelfItems, wholeBuild } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { judgeBonding } from './bonding/bonding.ts'
import { type Judged, judged, shown, together } from './judged.ts'
import { metalOf } from './layout/metal.ts'
import { pieceMm, tariffFor } from './layout/money.ts'
import { pinPath } from './layout/pins.ts'
import { HANDLE_BELOW_TOP_MM } from './layout/rules.ts'
import { judgeLight } from './light/judge.ts'
import { judgeApart, judgeInside } from './placed/apart.ts'
import { judgeAsked, judgePins } from './placed/asked.ts'
import { judgeHeights, judgeOrder } from './placed/order.ts'
import { freeGridFrac, judgeBands, judgeDents, judgeFreeGrid, judgeOpenings, judgeSwings } from './placed/wall-finds.ts'
import { middleOf, placeWords } from './placed/words.ts'
import type { BoxFit, FitResult, ItemRow, StrutSum } from './result.ts'
import { judgeRoutes } from './routes/judge.ts'
import { judgeRoom } from './space/judge.ts'
import { judgeStrut } from './strut/judge.ts'
import { judgeMetal } from './strut/metal-findings.ts'
import { judgeWireway } from './wireway/judge.ts'

export interface FitInputs {
  readonly job: Pick<Job, 'pins' | 'offers'> & { readonly yard: Pick<Job['yard'], 'corrosivity'> }
  readonly design: Design
  /** By box. */
  readonly bodies: Readonly<Record<string, BoxBody>>
  readonly rules: RuleSet
  readonly prices: Prices
}

/** What a question returns; of the same shape for every question. */
interface FitAnswer {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly result: FitResult
}

/**
 * Does it fit, and what does it hang on? Judges the build of every box of the design once, for all its phases. A box without a build, or
 * without a body, is unknown.
 */
export function answerFit(inputs: FitInputs): FitAnswer {
  const names = [...new Set(inputs.design.boxes.map((b) => b.box))].toSorted()
  const boxes = names.map((box) => boxFit(inputs, box))
  return {
    findings: boxes.flatMap((b) => b.judged.findings),
    workings: boxes.flatMap((b) => b.judged.workings),
    result: { boxes: boxes.flatMap((b) => (b.fit === null ? [] : [b.fit])) },
  }
}

function boxFit(inputs: FitInputs, box: string): { readonly judged: Judged; readonly fit: BoxFit | null } {
  const build = inputs.design.builds.find((b) => b.box === box)
  const body = inputs.bodies[box]
  if (build === undefined || body === undefined)
    return {
      judged: judged({
        code: 'fit/not-designed',
        subject: box,
        verdict: 'unknown',
        basis: 'house',
        said:
          build === undefined
            ? `Nothing says how ${box} is built: no layout was made.`
            : `Nothing says what steel box ${box} is.`,
        provenance: 'computed',
      }),
      fit: null,
    }
  const designs = inputs.design.boxes.filter((b) => b.box === box)
  const found = judgedBuild(inputs, build, body, designs)
  const { spaces, nuts } = found
  const said = { ...found, findings: gathered(box, found.findings, OF_EVERY_RACEWAY) }
  return { judged: said, fit: { ...fitOf(inputs, build, body, worst(found.findings.map((f) => f.verdict))), spaces, nuts } }
}

/** Said once where it stands alike for all: a box has forty raceways. */
const OF_EVERY_RACEWAY: ReadonlySet<string> = new Set(['fit/bends', 'fit/straps', 'fit/raceway-fill', 'fit/run-length'])

function judgedBuild(
  inputs: FitInputs,
  build: BoxBuild,
  body: BoxBody,
  designs: readonly BoxDesign[],
): Judged & Pick<BoxFit, 'spaces' | 'nuts'> {
  const { box, fit, skin } = build
  const { job, rules, prices } = inputs
  const wanted = shelfItems(designs, job, rules)
  const whole = wholeBuild(designs)
  const room = judgeRoom({
    box,
    body,
    items: fit.items,
    openings: skin.openings,
    rules,
    voltsToEarthV: voltsToEarthV(rules, designs),
    workedOnLive: (i) => partById(i.part)?.workedOnLive === true && i.side !== 'roof' && i.side !== 'floor',
    doorMm: (i) => partById(i.part)?.doorMm ?? 0,
    handleBelowTopMm: HANDLE_BELOW_TOP_MM,
  })
  const strut = judgeStrut({ box, fit, body, rules })
  const all = together([
    judgeAsked(box, fit, wanted),
    judgePins(box, body, fit, job.pins),
    judgeInside(box, body, fit),
    judgeApart(box, fit),
    judgeDents(box, body, fit),
    judgeOpenings(box, fit, skin),
    judgeSwings(box, body, fit),
    judgeBands(box, body, fit, skin),
    judgeFreeGrid(box, body, fit),
    judgeHeights(box, body, fit),
    judgeOrder(box, fit),
    strut,
    judgeMetal({
      box,
      strut: fit.strut,
      pins: job.pins,
      corrosivity: job.yard.corrosivity,
      moneyPerM: (section) => {
        const id = `strut/${section}`
        const row = Object.hasOwn(prices.rows, id) ? prices.rows[id] : undefined
        return row?.per === 'm' ? row.money : null
      },
      currency: prices.currency,
    }),
    room,
    judgeLight({ box, items: fit.items, body, rules, white: null }),
    judgeBonding({ box, fit, body, openings: skin.openings }),
    ...(whole === null ? [] : [judgeWireway({ box, fit, design: whole, rules })]),
    ...(whole === null ? [] : [judgeRoutes({ box, body, fit, design: whole, rules })]),
    ...(whole === null
      ? []
      : [
          judgeSearch(
            box,
            fit.search,
            tariffFor(whole, wanted, prices, metalOf(job.pins, box) ?? 'steel').missing,
            prices.currency,
          ),
        ]),
  ])
  return { ...all, spaces: room.spaces, nuts: strut.nuts.map(({ item, count, bolt }) => ({ item, count, bolt })) }
}

/** Highest of this box's systems. @throws Fault `fit/system-unknown` */
function voltsToEarthV(rules: RuleSet, designs: readonly BoxDesign[]): number {
  return Math.max(
    ...designs.map((d) => {
      const system = rules.systems.find((s) => s.id === d.system)
      if (system === undefined) throw new Fault('fit/system-unknown', d.system)
      return system.lineNeutralV
    }),
  )
}

/** The layout taken against the plain left-to-right rule, and against what none can go below. */
function judgeSearch(box: string, search: BoxBuild['fit']['search'], missing: readonly string[], currency: string): Judged {
  if (search === null) return { findings: [], workings: [] }
  const { money, plainMoney, plainClashesCount, boundMoney, triedCount } = search
  const plain = `the plain left-to-right rule for ${shown(plainMoney)}${plainClashesCount === 0 ? '' : `, and ${plainClashesCount} of its things clash`}`
  const bound = boundMoney === null ? '' : `; none can cost less than ${shown(boundMoney)}`
  const without = missing.length === 0 ? '' : ` Without a price, and counted as nothing: ${missing.join(', ')}.`
  return judged({
    code: 'fit/layout-money',
    subject: box,
    verdict: plainClashesCount > 0 || money <= plainMoney + 0.005 ? 'holds' : 'fails',
    basis: 'house',
    said: `Of ${triedCount} layouts tried this one asks for ${shown(money)} ${currency} of raceway, wire and channel by the estimate, ${plain}${bound}.${without}`,
    demand: put('this layout', Number(shown(money)), currency),
    limit: put('plain rule', Number(shown(plainMoney)), currency),
    provenance: 'assumed',
  })
}

function fitOf(inputs: FitInputs, build: BoxBuild, body: BoxBody, verdict: BoxFit['verdict']): Omit<BoxFit, 'spaces' | 'nuts'> {
  const { fit, box } = build
  const items = fit.items.map((i): ItemRow => {
    const { id, kind, what, part, side, face, massKg, circuits } = i
    const pinned = inputs.job.pins.some((p) => p.path === pinPath(box, id))
    return { id, kind, what, part, side, face, place: placeWords(body, i), ...middleOf(body, i), massKg, circuits, pinned }
  })
  const sections = [...new Set(fit.strut.map((p) => p.section))].toSorted()
  return {
    box,
    type: body.type,
    items,
    strut: sections.map((section): StrutSum => {
      const here = fit.strut.filter((p) => p.section === section)
      return { section, piecesCount: here.length, lengthM: here.reduce((sum, p) => sum + pieceMm(p), 0) / 1000 }
    }),
    freeGridFrac: freeGridFrac(body, fit).frac,
    hungKg: {
      low: fit.items.reduce((sum, i) => sum + i.massKg.low, 0),
      high: fit.items.reduce((sum, i) => sum + i.massKg.high, 0),
    },
    search: fit.search,
    verdict,
  }
}
