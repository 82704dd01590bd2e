import type { BoxBody } from '../../box/index.ts'
import type { Opening, PlacedItem } from '../../job/index.ts'
import { judgeLower, judgeUpper, put, source, step, type Working } from '../../kernel/index.ts'
import { type Judged, judged, shown, together } from '../judged.ts'
import { spaceFigure } from '../shelf.ts'
import { lookOf } from '../strut/axes.ts'
import { type SpaceInputs, type WorkingSpace, workingSpaces } from './volume.ts'

export interface RoomInputs extends SpaceInputs {
  readonly box: string
  readonly body: SpaceInputs['body'] & Pick<BoxBody, 'doorOpeningMm'>
  readonly openings: readonly Opening[]
  /** Width of the door that swings out before a thing; 0: none. */
  readonly doorMm: (item: PlacedItem) => number
  /** From the top of an enclosure down to its highest handle; null: nobody measured it, its top counts. */
  readonly handleBelowTopMm: number | null
}

/** Room before gear, open doors, handles, the gap behind, and the ways out; with the spaces themselves, to be drawn. */
export function judgeRoom(inputs: RoomInputs): Judged & { readonly spaces: readonly WorkingSpace[] } {
  const spaces = workingSpaces(inputs)
  return {
    ...together([
      ...spaces.map((one) => spaceFindings(inputs, one)),
      ...spaces.map((one) => doorFinding(inputs, one)),
      handles(inputs),
      gaps(inputs),
      egress(inputs),
    ]),
    spaces,
  }
}

const CAUTION =
  'Nothing is stored in this space, and it is marked on the floor. Work on live parts only where the person in charge of the work has allowed it.'

const WAYS = { depth: 'fit/working-space-depth', width: 'fit/working-space-width', height: 'fit/working-space-height' } as const

function spaceFindings(inputs: RoomInputs, space: WorkingSpace): Judged {
  const subject = `${inputs.box} ${space.item}`
  const limit = { depth: space.depthMm, width: space.widthMm, height: space.heightMm }
  const working: Working = {
    id: `${subject}/working-space`,
    title: `Working space before ${space.item}`,
    steps: [
      ...space.steps,
      ...(space.freeMm === null
        ? []
        : [
            step('free', 'from the front to the nearest thing or wall', [], space.freeMm, 'mm', source('the layout', 'computed')),
          ]),
    ],
  }
  const rests = space.steps[0]?.rests ?? source('rule set', 'memory')
  const worst = (Object.keys(WAYS) as (keyof typeof WAYS)[]).flatMap((way) => {
    const found = space.intrusions.filter((one) => one.way === way)
    const most = found.reduce<(typeof found)[number] | null>((a, b) => (a === null || b.byMm > a.byMm ? b : a), null)
    return most === null ? [] : [most]
  })
  const common = { subject, basis: 'code', provenance: rests.provenance, confirm: true, caution: CAUTION } as const
  if (worst.length > 0)
    return {
      findings: worst.flatMap(
        (one) =>
          judged(
            {
              ...common,
              code: WAYS[one.way],
              verdict: 'fails',
              said: `${space.item} and ${one.against} clash: of the ${shown(limit[one.way], 4)} mm of ${one.way} before ${space.item} ${shown(one.byMm)} mm are missing.`,
              demand: put(one.way, limit[one.way] - one.byMm, 'mm'),
              limit: put(`${one.way} asked`, limit[one.way], 'mm'),
            },
            working,
          ).findings,
      ),
      workings: [working],
    }
  const tolerance = spaceFigure('build-tolerance').value
  const close = space.freeMm !== null && space.freeMm < space.depthMm + tolerance
  return judged(
    {
      ...common,
      code: WAYS.depth,
      verdict: close ? 'tight' : 'holds',
      said:
        space.freeMm === null
          ? `${shown(space.depthMm, 4)} mm before ${space.item} outside are clear of everything built; keep snow, cords and vehicles out of them.`
          : `${shown(space.freeMm, 4)} mm are free before ${space.item}; ${shown(space.depthMm, 4)} mm are asked, ${shown(space.widthMm, 4)} mm wide and ${shown(space.heightMm, 4)} mm high.${close ? ` That is within the ${tolerance} mm to which people build.` : ''}`,
      ...(space.freeMm === null ? {} : { demand: put('free', space.freeMm, 'mm') }),
      limit: put('depth asked', space.depthMm, 'mm'),
    },
    working,
  )
}

/** With the gear's door open at a right angle, and that of gear across from it too, somebody must still get past. */
function doorFinding(inputs: RoomInputs, space: WorkingSpace): Judged {
  const item = inputs.items.find((one) => one.id === space.item)
  const leafMm = item === undefined ? 0 : inputs.doorMm(item)
  if (item === undefined || leafMm === 0 || space.freeMm === null) return { findings: [], workings: [] }
  const want = spaceFigure('passage-with-door-open')
  const facing = inputs.items.filter((one) => inputs.doorMm(one) > 0 && across(item, one))
  const other = facing.reduce<PlacedItem | null>((a, b) => (a === null || inputs.doorMm(b) > inputs.doorMm(a) ? b : a), null)
  const otherMm = other === null ? 0 : inputs.doorMm(other)
  const passMm = space.freeMm - leafMm - otherMm
  return judged({
    code: 'fit/working-space-door',
    subject: `${inputs.box} ${space.item}`,
    verdict: passMm < want.value ? 'tight' : judgeLower(passMm, want.value, 0),
    basis: 'house',
    said: `With its door of ${shown(leafMm)} mm${other === null ? '' : ` and that of ${other.id}, ${shown(otherMm)} mm,`} open ${shown(Math.max(0, passMm))} mm stay free before ${space.item}; ${want.value} mm let a person past.`,
    demand: put('passage', passMm, 'mm'),
    limit: put('passage wanted', want.value, 'mm'),
    provenance: want.rests.provenance,
    ...(passMm < want.value
      ? { caution: 'Who works here must be able to leave with the door open: fasten it back, or hang it to swing the other way.' }
      : {}),
  })
}

/** Do two things hang on opposite walls, one before the other? */
function across(a: PlacedItem, b: PlacedItem): boolean {
  const [here, there] = [lookOf(a.side, a.face), lookOf(b.side, b.face)]
  if (a.face !== 'inside' || b.face !== 'inside' || here.axis !== there.axis || here.sign === there.sign) return false
  const side = here.axis === 0 ? 1 : 0
  return a.atMm[side] < b.atMm[side] + b.sizeMm[side] && b.atMm[side] < a.atMm[side] + a.sizeMm[side]
}

const WITH_HANDLES: readonly PlacedItem['kind'][] = ['service disconnect', 'transfer', 'panel']

function handles(inputs: RoomInputs): Judged {
  const most = inputs.rules.build.handleAtMostM
  const limitMm = most.value * 1000
  const all = inputs.items
    .filter((item) => WITH_HANDLES.includes(item.kind))
    .map((item) => {
      const floorMm = item.face === 'inside' ? inputs.body.insideAtMm[2] : 0
      return { item, handleMm: item.atMm[2] + item.sizeMm[2] - (inputs.handleBelowTopMm ?? 0) - floorMm }
    })
  return together(
    all.map(({ item, handleMm }) =>
      judged({
        code: 'fit/handle-height',
        subject: `${inputs.box} ${item.id}`,
        verdict: judgeUpper(handleMm, limitMm, 0),
        basis: 'code',
        said: `The highest handle of ${item.id} is ${shown(handleMm, 4)} mm up${item.face === 'outside' ? ' from the underside of the box; pads and ground add to it' : ''}; ${shown(limitMm, 4)} mm is the most.`,
        demand: put('handle', handleMm, 'mm'),
        limit: put('most', limitMm, 'mm'),
        provenance: most.rests.provenance,
        confirm: true,
        assumed: inputs.handleBelowTopMm === null ? [`${item.id}: its top counts as its highest handle`] : [],
      }),
    ),
  )
}

/** Gap behind what hangs on a wall that sweats. */
function gaps(inputs: RoomInputs): Judged {
  const least = inputs.rules.build.airGapM
  const leastMm = least.value * 1000
  const hung = inputs.items.filter((item) => item.side !== 'roof' && item.side !== 'floor')
  const all = hung.map((item) => ({ item, gapMm: gapBehindMm(inputs.body, item) }))
  if (all.length === 0) return { findings: [], workings: [] }
  const short = all.filter((one) => judgeLower(one.gapMm, leastMm, 0) === 'fails')
  const made = (one: (typeof all)[number], whole: boolean): Judged =>
    judged({
      code: 'fit/air-gap',
      subject: whole ? `${inputs.box} air gap` : `${inputs.box} ${one.item.id}`,
      verdict: judgeLower(one.gapMm, leastMm, 0),
      basis: 'code',
      said: `${whole ? `Least of ${all.length}: ` : ''}${shown(one.gapMm)} mm of air behind ${one.item.id}; ${shown(leastMm)} mm are asked on a wall that sweats.`,
      demand: put('gap', one.gapMm, 'mm'),
      limit: put('gap asked', leastMm, 'mm'),
      provenance: least.rests.provenance,
    })
  if (short.length > 0) return together(short.map((one) => made(one, false)))
  return made(
    all.reduce((a, b) => (b.gapMm < a.gapMm ? b : a)),
    true,
  )
}

function gapBehindMm(body: SpaceInputs['body'], item: PlacedItem): number {
  const { axis, sign } = lookOf(item.side, item.face)
  const back = sign === 1 ? item.atMm[axis] : item.atMm[axis] + item.sizeMm[axis]
  const wall =
    item.face === 'inside'
      ? sign === 1
        ? body.insideAtMm[axis]
        : body.insideAtMm[axis] + body.insideMm[axis]
      : sign === 1
        ? body.outsideMm[axis]
        : 0
  return sign === 1 ? back - wall : wall - back
}

function egress(inputs: RoomInputs): Judged {
  const want = inputs.rules.build.egress
  const { doorWidthM, doorHeightM, secondAboveM } = want.value
  const wide = (widthMm: number, heightMm: number) =>
    judgeLower(widthMm, doorWidthM * 1000, 0) === 'holds' && judgeLower(heightMm, doorHeightM * 1000, 0) === 'holds'
  const doors = inputs.openings.filter((one) => one.use === 'personnel door')
  const good = doors.filter((one) => wide(one.widthMm, one.heightMm))
  const lengthM = inputs.body.insideMm[0] / 1000
  const subject = `${inputs.box} ways out`
  const common = { code: 'fit/egress', subject, basis: 'code', provenance: want.rests.provenance, confirm: true } as const
  const size = `${shown(doorWidthM * 1000)} by ${shown(doorHeightM * 1000, 4)} mm`
  if (doors.length > 0 && good.length === 0) {
    const widest = doors.reduce((a, b) => (b.widthMm > a.widthMm ? b : a))
    return judged({
      ...common,
      verdict: 'fails',
      said: `${widest.id} is ${shown(widest.widthMm)} by ${shown(widest.heightMm, 4)} mm; a way out is ${size} at least.`,
      demand: put('width', widest.widthMm, 'mm'),
      limit: put('width asked', doorWidthM * 1000, 'mm'),
    })
  }
  const cargo = wide(inputs.body.doorOpeningMm.widthMm, inputs.body.doorOpeningMm.heightMm) ? 1 : 0
  const wanted = secondAboveM !== null && lengthM > secondAboveM ? 2 : 1
  if (good.length === 0)
    return judged({
      ...common,
      verdict: cargo === 0 ? 'fails' : 'unknown',
      said: 'The cargo doors are the only way out, and their bars are worked from outside: whether they open from within nobody said.',
      caution:
        'Nobody works inside behind closed cargo doors. Fasten them back, or cut a personnel door that opens outward without a key.',
    })
  const ways = good.length + cargo
  return judged({
    ...common,
    verdict: ways >= wanted ? 'holds' : 'fails',
    said:
      ways >= wanted
        ? `${good.length} personnel door(s) of ${size} or more${cargo > 0 ? ' beside the cargo doors' : ''}; ${wanted} way(s) out are asked for ${shown(lengthM)} m.`
        : `${ways} way(s) out; ${wanted} are asked for a room of ${shown(lengthM)} m.`,
    demand: put('ways out', ways),
    limit: put('asked', wanted),
    caution: 'The door opens outward by 90° or more, from within without a key.',
  })
}
