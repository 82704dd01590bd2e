import {
  bareScene,
  type GlassMachine,
  type GlassPlace,
  type GlassSheet,
  glassNet,
  glassSide,
  glassYard,
  type Point,
} from '@plugstead/drawings'
import type { AtWork } from './at-work.ts'
import type { GlassView, SheetAsked } from './protocol.ts'
import { boxAnswers } from './things.ts'
import { phasesOfBox, yardMachines } from './yard.ts'

/** Size of the lettering on paper, that all of a drawing is measured by. */
const LETTERING_MM = 2.65
const LEAST_SCALE = 8
/** Beside the net the yard is shortened: a metre of cord is a drag of so many pixels. */
const SHORTENED_PX = 6

/** A box's drawing as large as the room for it allows, its lettering at the size asked for. */
export function glassView(at: AtWork, asked: SheetAsked): GlassView | null {
  const drawn = at.drawn.find((d) => d.build.box === asked.box)
  if (drawn === undefined) return null
  // Marks stand beside what any question found, not only those of the box.
  const lines = boxAnswers(at).find((b) => b.box === asked.box)?.things ?? []
  const marks = Object.fromEntries(
    lines.flatMap(({ id, verdict }) => (verdict === null || verdict === 'holds' ? [] : [[id, verdict] as const])),
  )
  const of = { ...drawn, marks }
  const pxPerMm = asked.letterPx / LETTERING_MM
  const phase = asked.phase ?? phasesOfBox(at, asked.box)[0]
  const machines = phase === undefined || asked.alone === true ? [] : yardMachines(at, drawn, phase, asked.units)
  const sheet = ((): GlassSheet => {
    if (asked.side === 'yard') return glassYard(of, machines, at.job.boxes.find((b) => b.id === asked.box)?.doorFacesDeg ?? null)
    return asked.side === null ? glassNet(of, machines, { wide: asked.widthPx, tall: asked.heightPx }) : glassSide(of, asked.side)
  })()
  let scale = LEAST_SCALE
  let laid = bareScene(sheet.drawing, 100)
  // Letters keep their size while the drawing shrinks: the scale is found by trying.
  for (let round = 0; round < 8; round++) {
    laid = bareScene(sheet.drawing, scale)
    const [w, h] = laid.scene.sizeMm
    const over = Math.max((w * pxPerMm) / asked.widthPx, (h * pxPerMm) / asked.heightPx)
    if (over <= 1) break
    scale *= Math.max(over, 1.01)
  }
  const px = (place: Point): readonly [number, number] => {
    const [x, y] = laid.at(place)
    return [x * pxPerMm, y * pxPerMm]
  }
  const rect = ({ lowMm, highMm }: Pick<GlassPlace, 'lowMm' | 'highMm'>) => {
    const [a, b] = [px(lowMm), px(highMm)]
    return { x: Math.min(a[0], b[0]), y: Math.min(a[1], b[1]), w: Math.abs(b[0] - a[0]), h: Math.abs(b[1] - a[1]) }
  }
  const way = (from: Point, to: Point): readonly [number, number] => {
    const [a, b] = [px(from), px(to)]
    return [b[0] - a[0], b[1] - a[1]]
  }
  const machine = (m: GlassMachine) => ({
    ...{ id: m.id, from: px(m.fromMm), cordsFrom: m.cordsFromMm.map(px), bearingDeg: m.bearingDeg },
    ...{ out: [m.out[0], -m.out[1]] as const, pxPerM: m.bearingDeg === null ? SHORTENED_PX : (1000 / scale) * pxPerMm },
    ...rect(m),
  })
  return {
    widthPx: laid.scene.sizeMm[0] * pxPerMm,
    heightPx: laid.scene.sizeMm[1] * pxPerMm,
    pxPerMm,
    said: laid.scene.said,
    items: laid.scene.items,
    things: sheet.things.map((place) => ({ id: place.id, side: place.side, ...rect(place) })),
    sides: sheet.sides.map((place) => ({
      ...{ side: place.side, ...rect(place), zero: px(place.zeroMm) },
      ...{ along: way(place.zeroMm, place.alongMm), up: way(place.zeroMm, place.upMm) },
      flatsM: of.body.sides[place.side].flats
        .filter((flat) => flat.kind === 'inner')
        .map((flat) => (flat.fromMm + flat.toMm) / 2000),
    })),
    machines: sheet.machines.map(machine),
  }
}
