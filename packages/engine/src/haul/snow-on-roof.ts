import type { BoxBody } from '../box/index.ts'
import type { Opening, SkinDesign, YardFacts } from '../job/index.ts'
import { judgeEnds, judgeUpper, type Source, type Step, source, type Verdict } from '../kernel/index.ts'
import type { BuildRules } from '../rules/index.ts'
import { combination } from './combination.ts'
import type { RoofSnow } from './result.ts'
import { amount, figure, line, numberIn, rowOf, sourceOf } from './shelf.ts'
import { asceRoofSnow, enRoofSnow, nbcRoofSnow, simpleBeam, tubeSection } from './snow.ts'

/** Snow on the roof by the standard, least to greatest; pascals. */
export function roofSnowPa(
  groundPa: number,
  by: BuildRules['snowBy'],
): { readonly low: number; readonly high: number; readonly rests: Source } {
  const row = rowOf('snow-terms', { by })
  const [shape, ce, ct, is] = ['shape', 'exposure', 'thermal', 'importance'].map((column) => numberIn(row, column)) as [
    number,
    number,
    number,
    number,
  ]
  const rests = sourceOf('snow-terms', row, by)
  if (typeof row.least_to === 'number') {
    const { design } = asceRoofSnow({ ground: groundPa, ce, ct, is, leastTo: row.least_to * 1000, shape })
    return { low: design, high: design, rests }
  }
  if (typeof row.rain_low === 'number' && typeof row.rain_high === 'number') {
    const at = (rain: number): number => nbcRoofSnow({ ss: groundPa, sr: rain * 1000, cb: shape, cw: ce, cs: 1, ca: 1, is }).load
    return { low: at(row.rain_low), high: at(row.rain_high), rests }
  }
  const s = enRoofSnow({ sk: groundPa, shape, ce, ct })
  return { low: s, high: s, rests }
}

/**
 * The roof under snow: its sheet as ribs that span from rail to rail, and the top rail over the widest opening below it. Null: no load told.
 * The patch test of a box's roof is no rating and is not used. Ribs that end short of the rails carry less: both ends.
 */
export function snowOnRoof(of: {
  readonly yard: YardFacts
  readonly by: BuildRules['snowBy']
  readonly body: BoxBody
  readonly skin: SkinDesign
}): {
  readonly value: RoofSnow
  readonly steps: readonly Step[]
} | null {
  const { body } = of
  const groundPa = of.yard.snow.groundLoadPa
  const sheet = body.sides.roof.corrugation
  if (groundPa === null || sheet === null) return null
  const mix = combination(of.by)
  const snow = roofSnowPa(groundPa, of.by)
  const yieldN = figure('box-steel-yield')
  const share = figure('roof-share-low')
  const spanMm = body.insideMm[1]
  const ownPa = sheet.sheetKgPerM2 * amount('gravity')
  const pitchMm = sheet.pitchMm.value
  const rib = (pa: number, part: number): number =>
    simpleBeam({
      loadNPerMm: ((mix.snow * pa + ownPa) * pitchMm) / 1e6,
      spanMm,
      sectionMm3: sheet.sectionMm3PerPitch * part,
      inertiaMm4: sheet.inertiaMm4PerPitch * part,
      modulusNPerMm2: amount('steel-modulus'),
    }).stressNPerMm2 * 1e6
  const ribPa = {
    low: rib(snow.low, 1),
    high: rib(snow.high, share.value),
    basis: 'whole to half of the ribs’ section',
    told: false,
  }
  const allowablePa = mix.steel * yieldN.value * 1e6
  const rail = railOver(of.skin.openings, body, (mix.snow * snow.high + ownPa) / 1e6)
  return {
    value: {
      groundPa,
      roofPa: { low: snow.low, high: snow.high, basis: of.by, told: false },
      ribPa,
      allowablePa,
      rail: rail?.value ?? null,
    },
    steps: [
      line('s ground', 'as told', [], groundPa, 'Pa', source('the job document', 'told')),
      line('s least', 'on a flat roof', [], snow.low, 'Pa', snow.rests),
      line('s greatest', 'on a flat roof', [], snow.high, 'Pa', snow.rests),
      ...(['least', 'greatest'] as const).map((end) => {
        const pa = end === 'least' ? snow.low : snow.high
        return line(
          `w ${end}`,
          '(γ·s + own)·pitch',
          [
            ['γ', mix.snow, ''],
            ['s', pa, 'Pa'],
            ['own', ownPa, 'Pa'],
            ['pitch', pitchMm, 'mm'],
          ],
          ((mix.snow * pa + ownPa) * pitchMm) / 1e6,
          'N/mm',
          mix.rests,
        )
      }),
      line(
        'σ least',
        'w·b²/(8·S), whole section',
        [
          ['b', spanMm, 'mm'],
          ['S', sheet.sectionMm3PerPitch, 'mm3'],
        ],
        ribPa.low / 1e6,
        'N/mm2',
      ),
      line('σ greatest', 'w·b²/(8·S·share)', [['share', share.value, '']], ribPa.high / 1e6, 'N/mm2', share.rests),
      line(
        'σ allowed',
        'share·fy',
        [
          ['share', mix.steel, ''],
          ['fy', yieldN.value, 'N/mm2'],
        ],
        allowablePa / 1e6,
        'N/mm2',
        yieldN.rests,
      ),
      ...(rail?.steps ?? []),
    ],
  }
}

/** Ribs of the bare sheet, at both ends of how far they reach. */
export const ribsVerdict = ({ ribPa, allowablePa }: RoofSnow): Verdict =>
  judgeEnds(judgeUpper(ribPa.low, allowablePa), judgeUpper(ribPa.high, allowablePa))

const TUBE = /([\d.]+)\s*x\s*([\d.]+)\s*x\s*([\d.]+)/

/** Widest opening in a long side, with the top rail over it, and the lintel of its frame where it has one. */
function railOver(openings: readonly Opening[], body: BoxBody, pressureMPa: number) {
  const cut = openings
    .filter((one) => (one.side === 'left' || one.side === 'right') && (one.class === 'door' || one.class === 'framed'))
    .toSorted((a, b) => b.widthMm - a.widthMm || (a.id < b.id ? -1 : 1))[0]
  const member = body.members.find((one) => one.kind === 'top rail')
  const size = TUBE.exec(member?.section ?? '')
  if (cut === undefined || size === null) return null
  const tube = tubeSection({ widthMm: Number(size[1]), heightMm: Number(size[2]), wallMm: Number(size[3]) })
  const members = cut.frame === null ? 1 : 2
  const loadNPerMm = (pressureMPa * body.outsideMm[1]) / 2
  const beam = simpleBeam({
    loadNPerMm,
    spanMm: cut.widthMm,
    sectionMm3: tube.sectionMm3 * members,
    inertiaMm4: tube.inertiaMm4 * members,
    modulusNPerMm2: amount('steel-modulus'),
  })
  const sagLimitM = cut.widthMm / amount('rail-sag') / 1000
  return {
    value: { opening: cut.id, stressPa: beam.stressNPerMm2 * 1e6, sagM: beam.sagMm / 1000, sagLimitM },
    steps: [
      line(
        'w rail',
        '(γ·s + own)·b/2',
        [
          ['γ·s + own', pressureMPa * 1e6, 'Pa'],
          ['b', body.outsideMm[1], 'mm'],
        ],
        loadNPerMm,
        'N/mm',
      ),
      line(
        'σ rail',
        `w·a²/(8·S), ${members === 1 ? 'rail alone' : 'rail and lintel alike'} over ${cut.id}`,
        [
          ['a', cut.widthMm, 'mm'],
          ['S', tube.sectionMm3 * members, 'mm3'],
        ],
        beam.stressNPerMm2,
        'N/mm2',
      ),
      line('f rail', '5·w·a⁴/(384·E·I)', [['I', tube.inertiaMm4 * members, 'mm4']], beam.sagMm, 'mm'),
    ],
  }
}
