import {
  airFaces,
  airReasons,
  airSection,
  airWeek,
  airYearMap,
  degreesSaid,
  hotFromC,
  type Scene,
  spellTitle,
  type VentPlace,
  waterSaid,
  yearMapOf,
} from '@plugstead/drawings'
import type { AirCounts, AirMoment, AirSpell, AirYear } from '@plugstead/engine/air'
import type { AirChoice } from '@plugstead/engine/job'
import { type Finding, formatNumber, THIN, type Verdict, worst } from '@plugstead/engine/kernel'
import type { AtWork } from '../at-work.ts'
import type { RoomDrawing } from '../protocol.ts'
import { airChoices } from '../rooms/air-choices.ts'
import { type AirBoxAt, airAt, boxesRun, tryAir } from './at-hand.ts'
import type {
  AirAsked,
  AirHourAsked,
  AirHourView,
  AirMapAsked,
  AirMapView,
  AirReasonsAsked,
  AirReasonsView,
  AirRoomView,
  AirTryAsked,
  AirTryView,
  AirUnits,
  GlassAsked,
  MomentView,
  VentView,
} from './types.ts'

const LETTERING_MM = 2.65
const DAY_H = 24

export const pxPerMm = ({ letterPx }: GlassAsked): number => letterPx / LETTERING_MM

export const drawingOf = (scene: Scene, perMm: number): RoomDrawing => ({
  ...{ widthPx: scene.sizeMm[0] * perMm, heightPx: scene.sizeMm[1] * perMm, pxPerMm: perMm },
  ...{ said: scene.said, items: scene.items, places: [] },
})

export function airRoom(at: AtWork, asked: AirAsked): AirRoomView | null {
  const box = airAt(at, asked)
  if (box === null) return null
  const { result, end } = box
  const year = result.ends[end]
  const { weather } = result
  return {
    ...{ box: result.box, boxes: boxesRun(at).map((b) => b.box), end, wetterEnd: result.wetterEnd },
    ...{ firstDay: weather.firstDay, firstHour: weather.firstHour, hoursCount: weather.hoursCount },
    said: { tight: result.ends.tight.said, leaky: result.ends.leaky.said },
    counts: countsOf(result.ends),
    months: year.months,
    night:
      year.worstNight === null ? null : { ...momentView(year, year.worstNight), byNight: year.worstNight.what === 'worst night' },
    hottest: momentView(year, year.hottestHour),
    drips: year.drips,
    shorts: result.shorts.map(({ run, said, ends, spell, spellEnd }) => ({
      ...{ run, said, counts: ends[end].counts, hoursCount: spell.hoursCount, end: spellEnd },
    })),
    weather: { from: weather.from, named: weather.named, seed: weather.seed, assumed: weather.assumed, place: weather.place },
    choices: airChoices(at, result.box).map((choice) => ({
      ...choice,
      name: (choice.path ?? '').slice(`air.${result.box}.`.length) as AirChoice,
    })),
  }
}

const countsOf = (ends: Readonly<Record<'tight' | 'leaky', AirYear>>): Readonly<Record<'tight' | 'leaky', AirCounts>> => ({
  tight: ends.tight.counts,
  leaky: ends.leaky.counts,
})

function momentView(year: AirYear, { what, atH, when }: AirMoment): MomentView {
  const spell = year.spells.find((s) => s.what === what)
  return { atH, when, fromH: spell?.fromH ?? Math.max(0, Math.floor(atH / DAY_H - 3) * DAY_H) }
}

export function airMap(at: AtWork, asked: AirMapAsked): AirMapView | null {
  const box = airAt(at, asked)
  if (box === null) return null
  const perMm = pxPerMm(asked)
  const { result, end } = box
  const map = yearMapOf(result, {
    ...{ widthMm: asked.widthPx / perMm, units: asked.units, end, quantity: asked.quantity, spell: null },
  })
  const scene = airYearMap(map)
  const { leftMm, topMm, dayMm, hourMm, daysCount } = scene.plot
  return {
    drawing: drawingOf(scene, perMm),
    plot: { left: leftMm * perMm, top: topMm * perMm, dayPx: dayMm * perMm, hourPx: hourMm * perMm, daysCount },
  }
}

export function airHour(at: AtWork, asked: AirHourAsked): AirHourView | null {
  const box = airAt(at, asked)
  if (box === null) return null
  const perMm = pxPerMm(asked)
  const { drawn, result, end, air } = box
  const spell = box.hours(asked.pick)
  const atH = Math.max(0, Math.min(spell.hoursCount - 1, asked.pick.kind === 'short' ? asked.atH : asked.atH - spell.fromH))
  const { units } = asked
  const [lengthMm, acrossMm, heightMm] = drawn.body.insideMm
  const sizeM = { lengthM: lengthMm / 1000, widthM: acrossMm / 1000, heightM: heightMm / 1000 }
  const flow = (id: string): number | null => spell.openings.find((o) => o.id === id)?.flowM3S[atH] ?? null
  const days = airWeek({ widthMm: asked.widthPx / perMm, units, spell, atH, hotC: hotFromC(result.ends[end].gear) })
  const besideMm = asked.besidePx / perMm
  const faces = airFaces({
    ...{ widthMm: besideMm, units, spell, atH, sizeM },
    vents: air.vents.map(({ id, side }) => ({ id, side, flowM3S: flow(id) })),
  })
  const gearSide = drawn.build.fit.items.some((i) => i.kind === 'panel' && i.face === 'inside' && i.side === 'right')
    ? 'right'
    : 'left'
  const section = airSection({ widthMm: besideMm, units, spell, atH, sizeM, air, gearSide })
  const { plot } = days
  return {
    ...{ fromH: spell.fromH, hoursCount: spell.hoursCount, title: titleOf(spell), sum: sumOf(spell, units) },
    when: whenOf(spell, atH),
    days: drawingOf(days, perMm),
    plot:
      plot === null
        ? null
        : { left: plot.leftMm * perMm, right: plot.rightMm * perMm, top: plot.topMm * perMm, bottom: plot.bottomMm * perMm },
    faces: drawingOf(faces, perMm),
    section: drawingOf(section, perMm),
    vents: ventsOf(box, section.places, perMm),
  }
}

function ventsOf({ drawn, air }: AirBoxAt, places: readonly VentPlace[], perMm: number): readonly VentView[] {
  const floorMm = drawn.body.insideAtMm[2]
  return air.vents.flatMap(({ id, side, upMm, widthMm, heightMm }): readonly VentView[] => {
    if (side !== 'left' && side !== 'right' && side !== 'blind end') return []
    const { sheet } = drawn.body.sides[side]
    const place = places.find((v) => v.id === id)
    return [
      {
        ...{ id, low: id === 'vent low', side, upMm, widthMm, heightMm },
        sheetMm: { low: Math.max(0, sheet.lowMm - floorMm), high: sheet.highMm - floorMm },
        at:
          place === undefined
            ? null
            : {
                ...{ x: place.xMm * perMm, y: place.yMm * perMm },
                ...{ heightPx: place.heightMm * perMm, pxPerM: place.perMMm * perMm },
              },
      },
    ]
  })
}

/** Readings stand at the end of their hour. */
function whenOf(spell: AirSpell, atH: number): string {
  const ends = spell.firstHour + atH + 1
  const day = { ...spell, what: '', firstDay: spell.firstDay + Math.floor(ends / DAY_H), firstHour: ends % DAY_H, hoursCount: 1 }
  return `${spellTitle(day).replace(/^, /, '')}, ${String(ends % DAY_H).padStart(2, '0')}:00`
}

const titleOf = (spell: AirSpell): string =>
  spellTitle({ ...spell, what: spell.what === 'week' ? '' : spell.what }).replace(/^, /, '')

/** Hours and litres of the days shown, for those who do not see the picture. */
function sumOf({ faces, hoursCount, airC, gearFilmGPerM2 }: AirSpell, units: AirUnits): string {
  const { roof } = faces
  const hours = (is: (h: number) => boolean): number => {
    let count = 0
    for (let h = 0; h < hoursCount; h += 1) if (is(h)) count += 1
    return count
  }
  const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY)
  const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)
  const fellG = Object.values(faces).reduce((sum, face) => sum + face.fellG.reduce((a, b) => a + b, 0), 0)
  const frosted = hours((h) => (roof.frostGPerM2[h] ?? 0) >= 0.5)
  const dew = hours((h) => (gearFilmGPerM2[h] ?? 0) >= 0.1)
  const n = (value: number): string => formatNumber(value, { digits: 3, shortest: true })
  return [
    `air inside ${degreesSaid(least(airC), units)} … ${degreesSaid(most(airC), units)}`,
    frosted === 0 ? 'no frost under the roof' : `frost under the roof in ${frosted}${THIN}h`,
    `at most ${n(Math.round(most(roof.filmGPerM2)))}${THIN}g/m² hang there`,
    fellG < 0.5 ? 'nothing falls' : `${waterSaid(fellG, units)} fall`,
    dew === 0 ? 'no dew on the gear' : `dew on the gear in ${dew}${THIN}h`,
  ].join('; ')
}

export function airReasonsView(at: AtWork, asked: AirReasonsAsked): AirReasonsView | null {
  const box = airAt(at, asked)
  if (box === null) return null
  const perMm = pxPerMm(asked)
  const year = box.result.ends[box.end]
  const drawn = (moment: AirMoment): RoomDrawing =>
    drawingOf(airReasons({ widthMm: asked.widthPx / perMm, units: asked.units, moment }), perMm)
  return { night: year.worstNight === null ? null : drawn(year.worstNight), hottest: drawn(year.hottestHour) }
}

/** The year with something changed, and what of the verdicts moves. */
export function airTry(at: AtWork, { box, pins }: AirTryAsked): AirTryView | null {
  const begun = performance.now()
  const tried = tryAir(at, box, pins)
  if (tried === null || tried.is === 'unread') return tried
  const was = at.found.assessment.findings.filter((f) => f.question === 'air' && f.subject.split(' ')[0] === tried.box)
  const stands = boxesRun(at).find((b) => b.box === tried.box)
  if (stands === undefined) return null
  const ofBox = (all: readonly Finding[]): Verdict => worst(all.map((f) => f.verdict))
  return {
    ...{ is: 'answer', stands: countsOf(stands.ends), tried: countsOf(tried.result.ends) },
    moved: movedBetween(was, tried.findings),
    worst: { was: ofBox(was), is: ofBox(tried.findings) },
    tookMs: performance.now() - begun,
  }
}

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, tight: 1, unknown: 2, fails: 3 }

/** By kind of finding, the worst of each: parts and runs come and go with what is built. */
function movedBetween(was: readonly Finding[], is: readonly Finding[]) {
  const worstBy = (all: readonly Finding[]) => {
    const out = new Map<string, Verdict>()
    for (const f of all) {
      const had = out.get(f.code)
      if (had === undefined || RANK[f.verdict] > RANK[had]) out.set(f.code, f.verdict)
    }
    return out
  }
  const [a, b] = [worstBy(was), worstBy(is)]
  return [...new Set([...a.keys(), ...b.keys()])].flatMap((code) => {
    const [before, after] = [a.get(code) ?? 'holds', b.get(code) ?? 'holds']
    return before === after ? [] : [{ code, what: code.replace(/^air\//, ''), was: before, is: after }]
  })
}
