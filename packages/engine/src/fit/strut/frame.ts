import type { FitDesign, Fixing, PlacedItem, StrutPiece } from '../../job/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { strutFigure } from '../shelf.ts'
import { axesOf, type PieceAxes, type Vector } from './axes.ts'
import { type BeamAnswer, beamAnswer } from './beam.ts'
import { type Hung, type NutForce, nutForces, nutsOf } from './hang.ts'
import { GRAVITY_N_PER_KG, type Section, sectionOf } from './section.ts'

/** One way the box is held or shaken: acceleration over gravity in the axes of the container. */
export interface ShakeCase {
  readonly name: string
  readonly g: Vector
  readonly standing: boolean
}

/**
 * Standing, and on the vehicle: twice the weight down; the rule set's forward share along the box both ways, for it may be loaded either
 * way round; its sideways share across both ways.
 */
export function shakeCases(rules: RuleSet): readonly ShakeCase[] {
  const { forwardG, rearG, sideG } = rules.build.securing.value
  const along = Math.max(forwardG, rearG)
  const down = strutFigure('truck-vertical').value
  return [
    { name: 'standing', g: [0, 0, -1], standing: true },
    { name: `on the road, ${down} g down`, g: [0, 0, -down], standing: false },
    { name: `on the road, ${along} g towards the doors`, g: [along, 0, -1], standing: false },
    { name: `on the road, ${along} g towards the blind end`, g: [-along, 0, -1], standing: false },
    { name: `on the road, ${sideG} g to the right`, g: [0, sideG, -1], standing: false },
    { name: `on the road, ${sideG} g to the left`, g: [0, -sideG, -1], standing: false },
  ]
}

/** A piece with its section, ready to be loaded. */
export interface Member {
  readonly piece: StrutPiece
  readonly section: Section
  readonly axes: PieceAxes
  /** Weight of a metre of it, with what other trades hang on it, N. */
  readonly perM: number
  /** Distinct points it is held at, from its lower end, rising; the fixing that stands for each. */
  readonly supports: readonly { readonly atM: number; readonly fixing: Fixing }[]
  /** Piece that a channel nut holds it to, by index of the support; null: the box, or nothing within reach. */
  readonly restsOn: readonly (string | null)[]
}

export interface MemberState {
  readonly case: ShakeCase
  /** Bent away from the wall and across it, in the plane of the slot face. */
  readonly look: BeamAnswer
  readonly across: BeamAnswer
  readonly alongN: number
  /** What it presses on each support with, in the axes of the container. */
  readonly reactionsN: readonly Vector[]
  readonly hungN: number
}

export interface Frame {
  readonly cases: readonly ShakeCase[]
  readonly members: ReadonlyMap<string, Member>
  readonly items: readonly { readonly item: PlacedItem; readonly hung: Hung; readonly forces: readonly (readonly NutForce[])[] }[]
  /** By piece: one state a case; absent for a piece that is not held at two points. */
  readonly states: ReadonlyMap<string, readonly MemberState[]>
}

/** Every piece under every case: things give their forces to their nuts, rails to the uprights they sit on, uprights to the box. */
export function frameOf(fit: FitDesign, rules: RuleSet): Frame {
  const cases = shakeCases(rules)
  const members = membersOf(fit.strut)
  const items = fit.items.map((item) => {
    const hung = nutsOf(item, members)
    return { item, hung, forces: cases.map((one) => nutForces(item, hung.nuts, item.massKg.high, one.g, members)) }
  })
  const states = new Map<string, readonly MemberState[]>()
  const ownLoads = loadsOf(items)
  const passed = new Map<string, Pressed[]>()
  for (const member of inOrder(members)) {
    if (member.supports.length < 2) continue
    const own = ownLoads.get(member.piece.id) ?? []
    const from = passed.get(member.piece.id) ?? []
    const all = [...own, ...from]
    const made = cases.map((one, c) =>
      stateOf(
        member,
        one,
        all.map(({ at, forces }) => ({ at, force: forces[c] as Vector })),
      ),
    )
    states.set(member.piece.id, made)
    member.restsOn.forEach((on, k) => {
      const under = on === null ? undefined : members.get(on)
      if (under === undefined) return
      const point = (member.supports[k] as { readonly fixing: Fixing }).fixing.atMm
      const list = passed.get(under.piece.id) ?? []
      list.push({ at: within(under, point[under.axes.along]), forces: made.map((s) => s.reactionsN[k] as Vector) })
      passed.set(under.piece.id, list)
    })
  }
  return { cases, members, items, states }
}

/** Forces on one point of a piece, one a case. */
interface Pressed {
  readonly at: number
  readonly forces: readonly Vector[]
}

/** What the nuts of things press on each piece. */
function loadsOf(items: Frame['items']): ReadonlyMap<string, readonly Pressed[]> {
  const by = new Map<string, Pressed[]>()
  for (const { hung, forces } of items)
    hung.nuts.forEach((nut, k) => {
      const list = by.get(nut.piece) ?? []
      list.push({ at: nut.atM, forces: forces.map((inCase) => (inCase[k] as NutForce).forceN) })
      by.set(nut.piece, list)
    })
  return by
}

function membersOf(strut: readonly StrutPiece[]): ReadonlyMap<string, Member> {
  const other = strutFigure('other-trades').value
  return new Map(
    strut.map((piece) => {
      const axes = axesOf(piece)
      const section = sectionOf(piece.section)
      const perM = (section.massKgPerM + other) * GRAVITY_N_PER_KG
      const supports: { readonly atM: number; readonly fixing: Fixing }[] = []
      for (const fixing of [...piece.fixings].sort((a, b) => a.atMm[axes.along] - b.atMm[axes.along])) {
        const atM = Math.min(Math.max((fixing.atMm[axes.along] - axes.fromMm) / 1000, 0), axes.lengthM)
        const last = supports[supports.length - 1]
        if (last === undefined || atM - last.atM > TOGETHER_M) supports.push({ atM, fixing })
      }
      const restsOn = supports.map(({ fixing }) => (fixing.how === 'channel nut' ? under(piece, fixing, strut) : null))
      return [piece.id, { piece, section, axes, perM, supports, restsOn }] as const
    }),
  )
}

/** Two fixings this near hold as one. */
const TOGETHER_M = 0.02
/** From the axis on a channel's back to a nut on the face of a double one, and the tolerance of building. */
const NUT_REACH_MM = 95

function under(piece: StrutPiece, fixing: Fixing, strut: readonly StrutPiece[]): string | null {
  const near = strut
    .filter((other) => other.id !== piece.id)
    .map((other) => ({ id: other.id, far: distanceMm(fixing.atMm, other) }))
    .filter((one) => one.far <= NUT_REACH_MM)
    .sort((a, b) => a.far - b.far || (a.id < b.id ? -1 : 1))
  return near[0]?.id ?? null
}

function distanceMm(p: Vector, piece: StrutPiece): number {
  const d = [0, 1, 2].map((i) => (piece.toMm[i] as number) - (piece.fromMm[i] as number))
  const length2 = d.reduce((sum, x) => sum + x * x, 0)
  const t = length2 === 0 ? 0 : d.reduce((sum, x, i) => sum + x * ((p[i] as number) - (piece.fromMm[i] as number)), 0) / length2
  const k = Math.min(1, Math.max(0, t))
  return Math.hypot(...d.map((x, i) => (p[i] as number) - ((piece.fromMm[i] as number) + k * x)))
}

/** What rests on others before what carries it; by name where either may come first. A ring of pieces that hold one another is cut where it closes. */
function inOrder(members: ReadonlyMap<string, Member>): readonly Member[] {
  const above = new Map<string, string[]>()
  for (const m of members.values())
    for (const on of m.restsOn) if (on !== null) above.set(on, [...(above.get(on) ?? []), m.piece.id])
  const done: Member[] = []
  const seen = new Set<string>()
  const visit = (id: string): void => {
    if (seen.has(id)) return
    seen.add(id)
    for (const up of [...(above.get(id) ?? [])].sort()) visit(up)
    done.push(members.get(id) as Member)
  }
  for (const id of [...members.keys()].sort()) visit(id)
  return done
}

const within = (member: Member, xMm: number): number =>
  Math.min(Math.max((xMm - member.axes.fromMm) / 1000, 0), member.axes.lengthM)

function stateOf(member: Member, one: ShakeCase, loads: readonly { readonly at: number; readonly force: Vector }[]): MemberState {
  const { axes, section, supports } = member
  const { perM } = member
  const bend = (axis: 0 | 1 | 2, inertiaM4: number): BeamAnswer =>
    beamAnswer({
      lengthM: axes.lengthM,
      supportsM: supports.map((s) => s.atM),
      loads: loads.map((l) => ({ atM: Math.min(Math.max(l.at, 0), axes.lengthM), forceN: l.force[axis] })),
      uniformNPerM: perM * one.g[axis],
      stiffnessNm2: section.elasticityPa * inertiaM4,
      deflections: one.standing,
    })
  const look = bend(axes.look, section.ixM4)
  const across = bend(axes.across, section.iyM4)
  const alongN = loads.reduce((sum, l) => sum + l.force[axes.along], 0) + perM * one.g[axes.along] * axes.lengthM
  const reactionsN = supports.map((_, k) => {
    const r: [number, number, number] = [0, 0, 0]
    r[axes.look] = look.reactionsN[k] as number
    r[axes.across] = across.reactionsN[k] as number
    r[axes.along] = alongN / supports.length
    return r as Vector
  })
  const hungN = loads.reduce((sum, l) => sum + Math.hypot(...l.force), 0)
  return { case: one, look, across, alongN, reactionsN, hungN }
}
