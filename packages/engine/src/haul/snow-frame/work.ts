import type { BoxBody } from '../../box/index.ts'
import type { SkinDesign, SnowFrame, YardFacts } from '../../job/index.ts'
import { judgeUpper, type Source, type Step, source, type Verdict, worst } from '../../kernel/index.ts'
import type { BuildRules } from '../../rules/index.ts'
import { combination } from '../combination.ts'
import { amount, figure, line } from '../shelf.ts'
import { simpleBeam } from '../snow.ts'
import { roofSnowPa } from '../snow-on-roof.ts'
import { type Bearer, bearerOf, type Deck, deckOf, SEAT } from './parts.ts'
import { levelsOf, type Rails, railsOf, shareMm, spacesOf } from './place.ts'
import { railUnder } from './rail.ts'

export interface FrameTask {
  readonly yard: YardFacts
  readonly by: BuildRules['snowBy']
  readonly body: BoxBody
  readonly skin: SkinDesign
}

/** One thing of a frame that must hold, in the unit it is said in. */
export interface Check {
  readonly what: string
  readonly demand: number
  readonly limit: number
  readonly unit: 'N/mm2' | 'mm'
  readonly verdict: Verdict
}

/** A frame under the snow of the place, at one end of what the snow may be. */
export interface FrameWork {
  readonly roofPa: number
  readonly checks: readonly Check[]
  readonly verdict: Verdict
  readonly steps: readonly Step[]
  /** Of one seat and of one long side, snow and frame together, as the combination counts them. */
  readonly seatN: number
  readonly sideN: number
  /** The same of the whole frame without snow, unfactored. */
  readonly ownN: number
}

const check = (what: string, demand: number, limit: number, unit: Check['unit']): Check => ({
  ...{ what, demand, limit, unit },
  verdict: judgeUpper(demand, limit),
})

const MEMORY: Source = source('continuous beams over equal spans', 'memory')

/**
 * Deck, bearers, seats and the rails they stand on. Deck and bearers as simple beams: σ = w·l²/(8·S), sag = 5·w·l⁴/(384·E·I); stress in
 * the combination of the standard, sag under the snow and the frame as they are. Null: no rails, or no snow load.
 */
export function frameWork(task: FrameTask, frame: SnowFrame, snowPa: number): FrameWork | null {
  const rails = railsOf(task.body)
  if (rails === null) return null
  const [bearer, deck] = [bearerOf(frame.section), deckOf(frame.deck)]
  const mix = combination(task.by)
  const g = amount('gravity')
  const { spacingMm, overhangMm } = spacesOf(task.body, frame)
  const shared = shareMm(spacingMm, overhangMm, frame.bearersAtMm.length)
  const spanMm = rails.acrossMm[1] - rails.acrossMm[0]
  const deckPa = deck.kgPerM2 * g
  const bearerNPerMm = (bearer.kgPerM * g) / 1000
  const factored = (mix.snow * snowPa + mix.deadWithSnow * deckPa) / 1e6
  const plain = (snowPa + deckPa) / 1e6
  const modulusNPerMm2 = amount('steel-modulus')
  const onDeck = { spanMm: spacingMm, sectionMm3: deck.sectionMm3, inertiaMm4: deck.inertiaMm4, modulusNPerMm2 }
  const onBearer = { spanMm, sectionMm3: bearer.sectionMm3, inertiaMm4: bearer.inertiaMm4, modulusNPerMm2 }
  const bearerW = factored * shared + mix.deadWithSnow * bearerNPerMm
  const deckStress = Math.max(
    simpleBeam({ ...onDeck, loadNPerMm: factored }).stressNPerMm2,
    (factored * overhangMm ** 2) / 2 / deck.sectionMm3,
  )
  const bearerStress = simpleBeam({ ...onBearer, loadNPerMm: bearerW }).stressNPerMm2
  const deckSag = simpleBeam({ ...onDeck, loadNPerMm: plain }).sagMm
  const bearerSag = simpleBeam({ ...onBearer, loadNPerMm: plain * shared + bearerNPerMm }).sagMm
  // The deck is as wide as the box, the bearers as long: what lies outside the rails' middles stands over them too.
  const seatN = (bearerW * task.body.outsideMm[1]) / 2
  const seatAreaMm2 = 2 * bearerOf(SEAT).tMm * amount('frame-seat-long')
  const steel = mix.steel * amount('frame-yield')
  const clearMm = levelsOf(rails, frame, deck.depthMm).seatsMm - roofTopMm(task.body, rails)
  const rail = railUnder(task, rails, frame, seatN)
  const checks = [
    check('deck', deckStress, mix.steel * deck.yieldNPerMm2, 'N/mm2'),
    check('deck sag', deckSag, spacingMm / amount('frame-sag'), 'mm'),
    check('bearer', bearerStress, steel, 'N/mm2'),
    check('bearer sag', bearerSag, spanMm / amount('frame-sag'), 'mm'),
    check('air over the roof sheet, used', bearerSag + amount('frame-clear'), clearMm, 'mm'),
    check('seat', seatN / seatAreaMm2, steel, 'N/mm2'),
    ...rail.checks.map((c) => check(c.what, c.demand, c.limit, c.unit)),
  ]
  const areaM2 = (task.body.outsideMm[0] * task.body.outsideMm[1]) / 1e6
  const bearersN = (frame.bearersAtMm.length * bearer.kgPerM * g * task.body.outsideMm[1]) / 1000
  const ownN = deckPa * areaM2 + bearersN
  const sideN = (factored * 1e6 * areaM2 + mix.deadWithSnow * bearersN) / 2
  return {
    roofPa: snowPa,
    checks,
    verdict: worst(checks.map((c) => c.verdict)),
    seatN,
    sideN,
    ownN,
    steps: [
      ...loadSteps(task, { snowPa, deckPa, bearer, deck, factored, spacingMm, overhangMm, shared, bearerW }),
      line(
        'σ deck',
        'greater of p·a²/(8·S) and p·o²/(2·S), a millimetre wide',
        [
          ['a', spacingMm, 'mm'],
          ['o', overhangMm, 'mm'],
          ['S', deck.sectionMm3, 'mm3'],
        ],
        deckStress,
        'N/mm2',
        DECK,
      ),
      line('f deck', '5·p·a⁴/(384·E·I)', [['I', deck.inertiaMm4, 'mm4']], deckSag, 'mm', DECK),
      line(
        'σ bearer',
        'w·l²/(8·S)',
        [
          ['l', spanMm, 'mm'],
          ['S', bearer.sectionMm3, 'mm3'],
        ],
        bearerStress,
        'N/mm2',
        figure('frame-corners').rests,
      ),
      line('σ allowed', 'share·fy', [['share', mix.steel, '']], steel, 'N/mm2', figure('frame-yield').rests),
      line('f bearer', '5·w·l⁴/(384·E·I)', [['I', bearer.inertiaMm4, 'mm4']], bearerSag, 'mm'),
      line('f most', `l/${amount('frame-sag')}`, [], spanMm / amount('frame-sag'), 'mm', figure('frame-sag').rests),
      line('air', 'seat over the roof sheet', [['seat', frame.seatMm, 'mm']], clearMm, 'mm'),
      line('R', 'w·b/2 on each seat', [['b', task.body.outsideMm[1], 'mm']], seatN / 1000, 'kN'),
      line('σ seat', 'R/(2·t·ℓ)', [['2·t·ℓ', seatAreaMm2, 'mm2']], seatN / seatAreaMm2, 'N/mm2'),
      ...rail.steps,
    ],
  }
}

const DECK: Source = source('table snow-decks', 'memory')

/** Crest of the roof sheet: it lies on the rails. */
const roofTopMm = (body: BoxBody, rails: Rails): number => {
  const sheet = body.sides.roof.corrugation
  return rails.topMm + (sheet === null ? 0 : sheet.depthMm + sheet.thicknessMm)
}

function loadSteps(
  task: FrameTask,
  of: {
    readonly snowPa: number
    readonly deckPa: number
    readonly bearer: Bearer
    readonly deck: Deck
    readonly factored: number
    readonly spacingMm: number
    readonly overhangMm: number
    readonly shared: number
    readonly bearerW: number
  },
): readonly Step[] {
  const mix = combination(task.by)
  return [
    line('s ground', 'as told', [], task.yard.snow.groundLoadPa ?? 'not told', 'Pa', source('the job document', 'told')),
    line('s', 'on the deck, as on a flat roof', [], of.snowPa, 'Pa', roofSnowPa(task.yard.snow.groundLoadPa ?? 0, task.by).rests),
    line(
      'p',
      'γs·s + γg·g of the deck',
      [
        ['γs', mix.snow, ''],
        ['γg', mix.deadWithSnow, ''],
        ['g', of.deckPa, 'Pa'],
      ],
      of.factored * 1e6,
      'Pa',
      mix.rests,
    ),
    line(
      'e',
      'greater of k·a and (a + o)²/(2·a): what one bearer carries',
      [
        ['a', of.spacingMm, 'mm'],
        ['o', of.overhangMm, 'mm'],
      ],
      of.shared,
      'mm',
      MEMORY,
    ),
    line('w', 'p·e + γg·own', [['own', of.bearer.kgPerM, 'kg/m']], of.bearerW, 'N/mm', mix.rests),
  ]
}
