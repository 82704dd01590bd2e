import { SIDES } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import { starAreaM2 } from '../surface/index.ts'
import { windRatio } from './surroundings.ts'
import type { BoxFace, BoxModel } from './types.ts'

/** A layer that resists less than this is one with what it lies on: steel sheet (4e-5), not foam or wood. */
const THIN_M2K_PER_W = 0.001
/** Emittance of primer inside, where a rail or post stands bare. @source table `surface-optics` */
const PRIMER_EMITTANCE = 0.9
const ROUGH_WIND = 2.537
/** Natural films, k of k·|ΔT|^(1/3): level faces turned over, level faces at rest, walls. @source Walton 1983 (TARP) */
export const FILM_UNSTABLE = 9.482 / (7.283 - 1)
export const FILM_STABLE = 1.81 / (1.382 + 1)
export const FILM_WALL = 1.31
/** Sheet of a second roof. @source common practice: 0.6 mm steel */
const SHADE_J_PER_M2K = 2200

/** Where the outside of a surface hangs: sky and wind, air alone, ground, or nowhere (the gear inside). */
export const SEES = { sky: 0, air: 1, ground: 2, nothing: 3 } as const

/**
 * A box as flat arrays: surfaces (faces, their bare parts, parts built otherwise, and the gear last), each a chain of nodes from outside to inside.
 * All heats in J/K and conductances in W/K of the whole surface.
 */
export interface Layout {
  readonly surfacesCount: number
  readonly nodesCount: number
  /** First and last node of each surface. */
  readonly outer: Int32Array
  readonly inner: Int32Array
  readonly side: Int32Array
  /** 0 a whole face, 1 its bare part, 2 a part built otherwise, 3 gear. */
  readonly kind: Uint8Array
  readonly sees: Uint8Array
  readonly heatJPerK: Float64Array
  /** From this node to the next one inward. */
  readonly nextWPerK: Float64Array
  readonly areaM2: Float64Array
  readonly outAreaM2: Float64Array
  readonly inAreaM2: Float64Array
  readonly absorptance: Float64Array
  readonly emittance: Float64Array
  /** Times the root of the record's wind: what it adds to the film. */
  readonly windFilm: Float64Array
  /** Natural films outside and inside where the surface is warmer, and where colder, than the air. */
  readonly outWarm: Float64Array
  readonly outCold: Float64Array
  readonly inWarm: Float64Array
  readonly inCold: Float64Array
  /** Black area of the exchange with the star, m². */
  readonly starM2: Float64Array
  readonly holdsKgPerM2: Float64Array
  /** Second roof. */
  readonly shadeCovers: Float64Array
  readonly shadeAbsorptance: Float64Array
  readonly shadeJPerK: Float64Array
  /** Surface of each side's face, of its bare part (or the face again), and of the gear. */
  readonly faceOf: Int32Array
  readonly bareOf: Int32Array
  readonly gearAt: number
  readonly floorAt: number
}

interface Draft {
  readonly face: BoxFace
  readonly side: number
  readonly kind: number
  readonly areaM2: number
  readonly layers: BoxFace['layers']
  readonly emittance: number
}

/** @throws Fault `air/model-range` */
export function layoutOf(model: BoxModel): Layout {
  if (model.faces.length !== 6) throw new Fault('air/model-range', 'six faces')
  const drafts: Draft[] = []
  const faceOf = new Int32Array(6)
  const bareOf = new Int32Array(6)
  const add = (draft: Draft): number => drafts.push(draft) - 1
  model.faces.forEach((face, side) => {
    if (!(face.areaM2 > 0 && face.bareFrac >= 0 && face.bareFrac < 1)) throw new Fault('air/model-range', face.side)
    faceOf[side] = add({
      face,
      side,
      kind: 0,
      areaM2: face.areaM2 * (1 - face.bareFrac),
      layers: face.layers,
      emittance: face.insideEmittanceFrac,
    })
    bareOf[side] = faceOf[side]!
    if (face.bareFrac > 0)
      bareOf[side] = add({
        face,
        side,
        kind: 1,
        areaM2: face.areaM2 * face.bareFrac,
        layers: face.layers.slice(0, 1),
        emittance: PRIMER_EMITTANCE,
      })
  })
  for (const face of model.parts ?? [])
    add({
      face,
      side: SIDES.indexOf(face.side),
      kind: 2,
      areaM2: face.areaM2,
      layers: face.layers,
      emittance: face.insideEmittanceFrac,
    })
  const S = drafts.length + 1
  const gear = S - 1
  const all = drafts.reduce((sum, one) => sum + one.areaM2, 0)
  const f = () => new Float64Array(S)
  const i = () => new Int32Array(S)
  const heats: number[] = []
  const nexts: number[] = []
  const out = {
    outer: i(),
    inner: i(),
    side: i(),
    kind: new Uint8Array(S),
    sees: new Uint8Array(S),
    areaM2: f(),
    outAreaM2: f(),
    inAreaM2: f(),
    absorptance: f(),
    emittance: f(),
    windFilm: f(),
    outWarm: f(),
    outCold: f(),
    inWarm: f(),
    inCold: f(),
    starM2: f(),
    holdsKgPerM2: f(),
    shadeCovers: f(),
    shadeAbsorptance: f(),
    shadeJPerK: f(),
  }
  drafts.forEach((draft, s) => {
    const { face, side, areaM2 } = draft
    const level = side >= 4
    out.outer[s] = heats.length
    heats.push(0)
    nexts.push(0)
    draft.layers.forEach((layer, n) => {
      const heat = layer.heatJPerM2K * areaM2 * (n === 0 ? face.developedRatio : 1)
      if (!(layer.resistanceM2KPerW >= 0 && layer.heatJPerM2K >= 0 && layer.nodesCount >= 1))
        throw new Fault('air/model-range', layer)
      if (layer.resistanceM2KPerW < THIN_M2K_PER_W) {
        heats[heats.length - 1]! += heat
        return
      }
      const parts = layer.heatJPerM2K === 0 ? 1 : Math.floor(layer.nodesCount)
      for (let p = 0; p < parts; p++) {
        heats[heats.length - 1]! += heat / parts / 2
        nexts[nexts.length - 1] = (areaM2 * parts) / layer.resistanceM2KPerW
        heats.push(heat / parts / 2)
        nexts.push(0)
      }
    })
    out.inner[s] = heats.length - 1
    out.side[s] = side
    out.kind[s] = draft.kind
    out.sees[s] = SEES[face.sees]
    out.areaM2[s] = areaM2
    out.outAreaM2[s] = areaM2 * face.developedRatio
    out.inAreaM2[s] = areaM2 * (out.inner[s] === out.outer[s] ? face.developedRatio : 1)
    out.absorptance[s] = face.absorptanceFrac
    out.emittance[s] = face.outsideEmittanceFrac
    out.windFilm[s] =
      ROUGH_WIND *
      face.roughnessRatio *
      Math.sqrt((face.perimeterM / (draft.kind === 2 ? areaM2 : wholeM2(model, side))) * windRatio(model, face.middleM))
    out.outWarm[s] = side === 4 ? FILM_UNSTABLE : side === 5 ? FILM_STABLE : FILM_WALL
    out.outCold[s] = side === 4 ? FILM_STABLE : side === 5 ? FILM_UNSTABLE : FILM_WALL
    out.inWarm[s] = level ? (side === 4 ? FILM_STABLE : FILM_UNSTABLE) : FILM_WALL
    out.inCold[s] = level ? (side === 4 ? FILM_UNSTABLE : FILM_STABLE) : FILM_WALL
    out.starM2[s] = starAreaM2(areaM2, all, draft.emittance)
    out.holdsKgPerM2[s] = face.holdsKgPerM2
    if (face.shade !== null) {
      out.shadeCovers[s] = face.shade.coversFrac
      out.shadeAbsorptance[s] = face.shade.absorptanceFrac
      out.shadeJPerK[s] = SHADE_J_PER_M2K * areaM2 * face.shade.coversFrac
    }
  })
  out.outer[gear] = heats.length
  out.inner[gear] = heats.length
  heats.push(model.gear.heatJPerK)
  nexts.push(0)
  out.side[gear] = -1
  out.kind[gear] = 3
  out.sees[gear] = SEES.nothing
  out.areaM2[gear] = model.gear.areaM2
  out.inAreaM2[gear] = model.gear.areaM2
  out.holdsKgPerM2[gear] = Number.POSITIVE_INFINITY
  return {
    surfacesCount: S,
    nodesCount: heats.length,
    heatJPerK: Float64Array.from(heats),
    nextWPerK: Float64Array.from(nexts),
    ...out,
    faceOf,
    bareOf,
    gearAt: gear,
    floorAt: faceOf[5]!,
  }
}

const wholeM2 = (model: BoxModel, side: number): number =>
  model.faces[side]!.areaM2 +
  (model.parts ?? []).reduce((sum, part) => sum + (SIDES.indexOf(part.side) === side ? part.areaM2 : 0), 0)
