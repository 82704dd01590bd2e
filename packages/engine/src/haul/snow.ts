import { Fault } from '../kernel/index.ts'
import { finite } from './shelf.ts'

/**
 * Snow on a flat roof by ASCE 7: pf = 0.7·Ce·Ct·Is·pg, at least Is·min(pg, 20 psf). Any unit of pressure with its own 20 psf.
 * @throws Fault `haul/snow-range`
 * @source ASCE 7-16, 7.3. Provenance: memory
 */
export function asceRoofSnow(of: {
  readonly ground: number
  readonly ce: number
  readonly ct: number
  readonly is: number
  /** 20 psf in the unit of `ground`. */
  readonly leastTo: number
  readonly shape?: number
}): { readonly flat: number; readonly least: number; readonly design: number } {
  finite('snow-range', { ...of, shape: of.shape ?? 0.7 })
  if (!(of.ground >= 0 && of.ce > 0 && of.ct > 0 && of.is > 0)) throw new Fault('haul/snow-range', of)
  const flat = (of.shape ?? 0.7) * of.ce * of.ct * of.is * of.ground
  const least = of.is * Math.min(of.ground, of.leastTo)
  return { flat, least, design: Math.max(flat, least) }
}

/**
 * Snow on a roof by the National Building Code: S = Is·[Ss·(Cb·Cw·Cs·Ca) + Sr], Sr not more than Ss·(Cb·Cw·Cs·Ca).
 * @throws Fault `haul/snow-range`
 * @source NBC 4.1.6.2. Provenance: read (cap), memory (shape)
 */
export function nbcRoofSnow(of: {
  readonly ss: number
  readonly sr: number
  readonly cb: number
  readonly cw: number
  readonly cs: number
  readonly ca: number
  readonly is: number
}): { readonly rain: number; readonly load: number } {
  finite('snow-range', of)
  if (!(of.ss >= 0 && of.sr >= 0 && of.is > 0)) throw new Fault('haul/snow-range', of)
  const shaped = of.ss * of.cb * of.cw * of.cs * of.ca
  const rain = Math.min(of.sr, shaped)
  return { rain, load: of.is * (shaped + rain) }
}

/** Snow on a roof by EN 1991-1-3: s = µ₁·Ce·Ct·sk. @source EN 1991-1-3, 5.2. Provenance: memory */
export function enRoofSnow(of: {
  readonly sk: number
  readonly shape: number
  readonly ce: number
  readonly ct: number
}): number {
  finite('snow-range', of)
  if (!(of.sk >= 0)) throw new Fault('haul/snow-range', of)
  return of.shape * of.ce * of.ct * of.sk
}

/**
 * A simple beam under an even load: σ = w·l²/(8·S), sag = 5·w·l⁴/(384·E·I). N, mm.
 * @throws Fault `haul/beam-range`
 */
export function simpleBeam(of: {
  readonly loadNPerMm: number
  readonly spanMm: number
  readonly sectionMm3: number
  readonly inertiaMm4: number
  readonly modulusNPerMm2: number
}): { readonly stressNPerMm2: number; readonly sagMm: number } {
  finite('beam-range', of)
  if (!(of.loadNPerMm >= 0 && of.spanMm > 0 && of.sectionMm3 > 0 && of.inertiaMm4 > 0 && of.modulusNPerMm2 > 0))
    throw new Fault('haul/beam-range', of)
  return {
    stressNPerMm2: (of.loadNPerMm * of.spanMm ** 2) / 8 / of.sectionMm3,
    sagMm: (5 * of.loadNPerMm * of.spanMm ** 4) / (384 * of.modulusNPerMm2 * of.inertiaMm4),
  }
}

/** Second moment and section modulus of a square or oblong tube, load across its height. @throws Fault `haul/beam-range` */
export function tubeSection(of: { readonly widthMm: number; readonly heightMm: number; readonly wallMm: number }): {
  readonly inertiaMm4: number
  readonly sectionMm3: number
} {
  const { widthMm: b, heightMm: h, wallMm: t } = of
  if (!(t > 0 && b > 2 * t && h > 2 * t)) throw new Fault('haul/beam-range', of)
  const inertiaMm4 = (b * h ** 3 - (b - 2 * t) * (h - 2 * t) ** 3) / 12
  return { inertiaMm4, sectionMm3: inertiaMm4 / (h / 2) }
}
