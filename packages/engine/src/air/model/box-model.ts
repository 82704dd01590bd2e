import type { BoxBody } from '../../box/index.ts'
import { type AirDesign, type BoxBuild, type Design, type Job, SIDES, UNTOLD_CLIMATE } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import type { BoxReach } from '../../power/reach/result.ts'
import type { RuleSet } from '../../rules/index.ts'
import { reflectanceFrac } from '../../weather/index.ts'
import { airAsBuilt, builtAirOf } from '../facts/built.ts'
import { monthsMeanC } from '../facts/climate.ts'
import { leakOf } from '../facts/leak.ts'
import { type MeasuredSaid, measuredOf } from '../facts/measured.ts'
import type { AirNote } from '../facts/note.ts'
import { ageingNotes, paintsOf } from '../facts/paint.ts'
import { airSiteOf } from '../facts/site.ts'
import { phasesByMonth } from '../facts/stay.ts'
import { amount } from '../figures.ts'
import { LEAK_EXPONENT_RATIO } from '../flow/leakage.ts'
import { gearHeatJPerK } from '../gear/heat.ts'
import { rowOf } from '../shelf.ts'
import type { BoxHeater, BoxModel } from '../year/types.ts'
import { insideAreaM2 } from './bare.ts'
import type { ModelEnd } from './ends.ts'
import { facesOf, floorWoodM } from './faces.ts'
import { belowRoof, gearOf, heatedGearOf, strutKgOf } from './gear.ts'
import { type GearHeat, gearHeatOf } from './gear-heat.ts'
import { MONTHS } from './months.ts'
import { fanOf, openingsOf } from './openings.ts'
import { skylinesOf } from './skyline.ts'
import { useOf } from './use.ts'

export const AIR_READS = ['boxes', 'plugs', 'pins', 'builtBody', 'climate', 'yard', 'site', 'surveys', 'phases', 'needs'] as const
export type AirJob = Pick<Job, (typeof AIR_READS)[number]>

export interface ModelTask {
  readonly job: AirJob
  readonly design: Design
  readonly build: BoxBuild
  readonly body: BoxBody
  readonly rules: Pick<RuleSet, 'sizes'>
  /** Of every box, phase and source; what belongs to another box is passed over. */
  readonly reach: readonly BoxReach[]
  /** What `haul` weighed in this box; null: not weighed, and strut counts for nothing. */
  readonly weighed: readonly { readonly id: string; readonly massKg: { readonly low: number; readonly high: number } }[] | null
  readonly end: ModelEnd
  /** Heat of the gear at this end, where it was worked out before: no measure changes it. Absent: it is worked out. */
  readonly heat?: GearHeat
}

export interface ModelMade {
  readonly model: BoxModel
  /** Design that the model stands for: of a box that stands, with what it was built with. */
  readonly air: AirDesign
  /** What it rests on that nobody told, or that cannot be read: the same at every end. */
  readonly notes: readonly AirNote[]
  /** What was measured and stands in the model. */
  readonly measured: readonly MeasuredSaid[]
}

/** A model's wind is read at this height of the record, m. */
const RECORD_M = 10
/** The long sides look east and west: the hottest way to stand. */
const DOOR_UNTOLD_DEG = 0

/**
 * One box as plain numbers, at one end of what nobody knows: areas and volume of its body, layers by foam and paint, openings of its skin,
 * gear by what hangs in it, heat by what its circuits carry. A box that stands is taken with the vents, foam, heater and paint that were told
 * of it.
 * @throws Fault `air/model-box` when design and build are of different boxes
 */
export function boxModelOf(task: ModelTask): ModelMade {
  const { job, build, body, end } = task
  if (build.box !== body.box) throw new Fault('air/model-box', { build: build.box, body: body.box })
  const built = builtAirOf(job)
  const pinned = new Set(
    job.pins.flatMap((p) => (p.path.startsWith(`air.${build.box}.`) ? [p.path.slice(`air.${build.box}.`.length)] : [])),
  )
  const air = built === null ? build.air : airAsBuilt(build.air, built.value, pinned)
  const site = airSiteOf(job)
  const paints = paintsOf(job, build.box)
  const meanCByMonth = monthsMeanC(job)
  const at = job.boxes.findIndex((b) => b.id === build.box)
  const facts = job.boxes[at]?.airFacts
  const survey = job.surveys.find((s) => s.box === build.box)
  const measured = measuredOf(survey, { roof: air.roofPaint === paints.value.roof, gear: air.heater?.at !== 'cabinet' })
  const band = (what: MeasuredSaid['what']) => measured.find((m) => m.what === what)
  const roofPct = band('roof-absorptance')?.[ROOF_BAND[end.paint === 'fresh' && end.leak === 'usual' ? 'usual' : end.paint]]
  const { faces, parts } = facesOf({
    ...{ body, build, air, end, skirted: facts?.skirted === true },
    ...(roofPct === undefined ? {} : { roofAbsorptanceFrac: roofPct / 100 }),
  })
  const heat = task.heat ?? heatOf(task)
  const volumeM3 = (body.insideMm[0] * body.insideMm[1] * body.insideMm[2]) / 1e9
  const doorFaces = job.boxes[at]?.doorFacesDeg
  const doorFacesDeg = doorFaces ?? DOOR_UNTOLD_DEG
  const visits = facts?.visits
  const heldC = air.heater?.at === 'room' ? air.heater.onBelowC : null
  const use = useOf({ body, skin: build.skin, end, meanCByMonth, heldC, ...(visits === undefined ? {} : { told: visits }) })
  const leak = leakOf({ box: build.box, at, facts, survey, volumeM3 })
  const skylinesDeg = skylinesOf({
    ...{ body, doorFacesDeg, horizon: job.climate?.horizon ?? [], beside: facts?.beside ?? [] },
    middleM: (side) => faces[SIDES.indexOf(side)]?.middleM ?? 0,
  })
  const gear = air.heater?.at === 'cabinet' ? heatedGearOf(build.fit) : gearOf(build.fit, strutKgOf(build.fit, task.weighed))
  // Light gear follows the heat of the day; heavy gear lags and takes the dew.
  const gearKg = band('gear-mass')?.[end.load === 'working day' ? 'low' : end.leak === 'usual' ? 'value' : 'high']
  const model: BoxModel = {
    box: build.box,
    volumeM3,
    floorAreaM2: insideAreaM2(body, 'floor'),
    insideHeightM: body.insideMm[2] / 1000,
    doorFacesDeg,
    faces,
    ...(parts.length === 0 ? {} : { parts }),
    openings: openingsOf({
      body,
      skin: build.skin,
      air,
      told: pinned.has('vents') || pinned.has('vent-places') ? null : (built?.value.vents ?? null),
      end,
    }),
    leakM3SAt1Pa: leak[LEAKS[end.leak]],
    leakExponent: LEAK_EXPONENT_RATIO,
    fan: fanOf({ body, skin: build.skin, air, end }),
    heater: heaterOf(air),
    gear: gearKg === undefined ? gear : { ...gear, heatJPerK: gearHeatJPerK(gearKg) },
    floor: floorOf(body, air),
    gearHeatW: heat.gearW,
    airHeatW: heat.airW,
    ...use,
    winterMonths: winterMonths(meanCByMonth),
    terrain: site.value.terrain,
    windHeightM: RECORD_M,
    groundReflectanceFrac: reflectanceFrac(site.value.groundSurface),
    snowReflectanceFrac: reflectanceFrac('snow (settled)'),
    skirted: facts?.skirted === true,
    ...(skylinesDeg === undefined ? {} : { skylinesDeg }),
    below: belowRoof(build.fit, air.dripHood),
  }
  return {
    model,
    air,
    notes: [
      ...paints.notes.filter((n) => !pinnedOver(job, build.box, n)),
      ...ageingNotes({
        ...{ job, box: build.box, paints: paints.value, pinned, walls: air.wallPaint },
        roof: roofPct === undefined ? air.roofPaint : null,
      }),
      ...(built?.notes ?? []),
      ...site.notes,
      ...leak.notes,
      ...notCut(build, pinned),
      ...heat.unsolved.map((circuit) => unsolvedNote(build.box, circuit)),
      ...(heat.lossUntold ? [lossNote(build.box)] : []),
      ...useNotes(job, build.box, doorFaces === undefined, meanCByMonth),
    ],
    measured,
  }
}

/** Heat of the gear of a box at one end: the same whatever keeps the box dry and cool. */
export const heatOf = ({ job, design, build, rules, reach, end }: Omit<ModelTask, 'heat'>): GearHeat =>
  gearHeatOf({
    ...{ designs: design.boxes.filter((b) => b.box === build.box), fit: build.fit, plugs: job.plugs, reach, rules, end },
    meanCByMonth: monthsMeanC(job),
    season: job.climate?.season ?? null,
    phasesByMonth: phasesByMonth(job),
  })

/** Vents that a person pinned and that find no place in their wall: they are not there in the year. */
function notCut({ box, air, skin }: BoxBuild, pinned: ReadonlySet<string>): readonly AirNote[] {
  const choice = ['vent-places', 'vents'].find((name) => pinned.has(name))
  if (choice === undefined) return []
  return air.vents.flatMap((vent): readonly AirNote[] => {
    const hole = skin.openings.find((o) => o.id === vent.id)
    if (hole !== undefined && hole.side === vent.side) return []
    const where = `in the ${vent.side === 'left' || vent.side === 'right' ? `${vent.side} long side` : vent.side}, its middle ${Math.round(vent.upMm)} mm over the floor`
    return [
      {
        ...{ kind: 'unread', path: `air.${box}.${choice}`, source: '' },
        said: `${box}: the ${vent.id} is wanted ${where}, and finds no place there clear of frame and gear; ${hole === undefined ? 'it is not cut' : `it is cut in the ${hole.side}`}.`,
        mend: 'Pin a smaller one, another height or another wall.',
      },
    ]
  })
}

const unsolvedNote = (box: string, circuit: string): AirNote => ({
  ...{ kind: 'missing', path: 'design', source: '', mend: '' },
  said: `${box}: what ${circuit} carries could not be worked out (see reach), so its heat is not known.`,
})

const lossNote = (box: string): AirNote => ({
  ...{ kind: 'missing', path: 'facts.supply.own-transformers', source: '', mend: '' },
  said: `${box}: nobody told what the transformer in it loses, so its heat is not known: write loss-no-load and loss-full-load, from its plate or its maker.`,
})

const LEAKS = { tight: 'tightM3s', usual: 'usualM3s', leaky: 'leakyM3s' } as const
/** Ends of what was measured: a fresh coat stands at the low one, an aged one at the high one. */
const ROOF_BAND = { fresh: 'low', usual: 'value', aged: 'high' } as const

/** Both paints pinned: what was told of the colour, or was not, is answered. */
const pinnedOver = (job: AirJob, box: string, note: AirNote): boolean =>
  note.path.endsWith('paint') &&
  ['roof-paint', 'wall-paint'].every((choice) => job.pins.some((p) => p.path === `air.${box}.${choice}`))

function heaterOf({ heater }: AirDesign): BoxHeater | null {
  if (heater === null) return null
  return {
    at: heater.at,
    powerW: heater.powerW,
    onBelowC: heater.onBelowC,
    deadBandK: amount('heater-band'),
    dewMarginK: heater.humidistat ? amount('dew-margin') : null,
  }
}

/** Paint lets through a tenth of what bare wood does. @source common practice */
const PAINTED_RATIO = 10
const TOP_M = 0.002

function floorOf(body: BoxBody, air: AirDesign): BoxModel['floor'] {
  const thicknessM = floorWoodM(body)
  const row = rowOf('materials', 'plywood, container floor (hardwood) 700 kg/m3')
  const printed = [...String(row.mu).matchAll(/\d+/g)].map(Number)
  return {
    dryKgPerM2: thicknessM * Number(row.rho),
    topM: Math.min(TOP_M, thicknessM / 2),
    thicknessM,
    vapourResistanceRatio: printed.reduce((sum, n) => sum + n, 0) / printed.length,
    paintedRatio: air.floorPainted ? PAINTED_RATIO : 1,
  }
}

/** Months whose mean is below freezing; none where nobody told the means. */
const winterMonths = (meanCByMonth: readonly number[] | null): readonly number[] =>
  Array.from({ length: MONTHS }, (_, m) => m).filter((m) => (meanCByMonth?.[m] ?? 0) < 0)

function useNotes(job: AirJob, box: string, turnUntold: boolean, meanCByMonth: readonly number[] | null): readonly AirNote[] {
  const at = job.boxes.findIndex((b) => b.id === box)
  const assumed = (path: string, said: string, source: string, mend = ''): AirNote => ({
    kind: 'assumed',
    path,
    said,
    source,
    mend,
  })
  const visits = job.boxes[at]?.airFacts?.visits
  const climate = job.climate ?? UNTOLD_CLIMATE
  return [
    ...(visits?.perDayCount !== undefined && visits.doorOpenS !== undefined
      ? []
      : [
          assumed(
            `boxes[${at}].visits`,
            `${box}: somebody comes in ${visits?.perDayCount === undefined ? `${amount('visits-a-day')} time` : `${visits.perDayCount} times`} a day; the door stands open ${visits?.doorOpenS ?? amount('door-open')} s for it`,
            'common practice',
            'Write for example “visits: {per-day: 2, door-open: 30 s}”.',
          ),
        ]),
    ...(turnUntold
      ? [
          assumed(
            `boxes[${at}].door-faces`,
            `${box}: its long sides look east and west, the hottest way to stand`,
            'nobody said how it is turned',
            'Write the bearing the door end looks to, for example “135 deg”.',
          ),
        ]
      : []),
    ...(meanCByMonth === null
      ? [
          {
            ...{ kind: 'missing' as const, path: 'facts.climate.mean-by-month', source: '' },
            said: 'Nobody has said how warm each month is.',
            mend: 'Write twelve numbers, January to December, with their unit.',
          },
        ]
      : []),
    ...(climate.humidityOver === null && climate.humidityFracByMonth !== null && winterMonths(meanCByMonth).length > 0
      ? [
          assumed(
            'facts.climate.humidity-over',
            'relative humidity below 0 C is over water',
            'as weather services report it',
            'Write “water” or “ice”.',
          ),
        ]
      : []),
  ]
}
