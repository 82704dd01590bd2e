import type { BoxBody } from '../box/index.ts'
import { EXIT_WAYS, type ExitWay, type Opening, type Side, type SkinDesign } from '../job/index.ts'
import { TUBES } from '../parts/index.ts'
import { exitsOf } from './cord-exits.ts'
import { doorIn, supplyEntry, vents } from './door-and-vents.ts'
import { jambNeedMm4, tubeSection } from './frame.ts'
import { classNeeded, mustReachRails } from './opening.ts'
import type { SkinRequest } from './request.ts'

/** Shortest box that gets a door of its own: in a shorter one the cargo door is two steps away. House rule. */
const DOOR_FROM_MM = 2400

/**
 * Openings of one box: a door of its own in the side that faces the gear, the vents that air asks for, the entry of the supply, and a way out for every cord by the trade's order of preference among what the rule set allows. The gear's wall is
 * kept whole where the gear hangs. Pins are kept: `skin.<box>.way`, `.cord-side`, `.door`.
 */
export function designSkin(request: SkinRequest): SkinDesign {
  const { body, pins } = request
  const pin = (what: string) => pins.find((p) => p.path === `skin.${body.box}.${what}`)?.value
  const gear: Side = 'left'
  const cordSide = sideOf(pin('cord-side')) ?? gear
  const openings: Opening[] = []
  const door = pin('door')
  if (door !== 'no' && door !== false && body.insideMm[0] >= DOOR_FROM_MM)
    openings.push(doorIn(body, gear === 'left' ? 'right' : 'left'))
  openings.push(...vents(body, request.vents, openings))
  openings.push(...supplyEntry(request, gear, openings))
  const exits = exitsOf(request, cordSide, gear, wayOf(pin('way')), openings)
  return {
    openings: [...openings, ...exits.openings].map((o) => framed(body, o)),
    exitWays: exits.ways,
    cordSide,
    finish: { primer: 'zinc-rich primer on both faces and the cut edge, then topcoat', foam: request.foam },
  }
}

const sideOf = (value: unknown): Side | null => (value === 'left' || value === 'right' || value === 'blind end' ? value : null)
const wayOf = (value: unknown): ExitWay | null => EXIT_WAYS.find((w) => w === value) ?? null

/** Class, frame and ties of an opening by its size and place. */
function framed(body: BoxBody, opening: Opening): Opening {
  const cls = classNeeded(body, opening)
  if (cls === 'hole on a flat' || cls === 'collar') return { ...opening, class: cls }
  const railToRail = mustReachRails(body, opening)
  const wall = body.sides[opening.side].corrugation
  const need =
    wall === null
      ? 0
      : jambNeedMm4({ wallMm4PerMm: wall.inertiaMm4PerPitch / wall.pitchMm.value, openingMm: opening.widthMm }).value
  const tube = TUBES.find((t) => t.bMm >= LEAST_FRAME_MM && tubeSection(t).value.inertiaMm4 >= need) ?? TUBES[TUBES.length - 1]!
  return { ...opening, class: cls, frame: tube.section, railToRail }
}
/** Lighter tube is burnt through when it is welded to a sheet of 2 mm. House rule. */
const LEAST_FRAME_MM = 40
