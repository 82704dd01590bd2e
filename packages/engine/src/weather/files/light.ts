import { PHYSICS } from '../constants.ts'
import { diffuseFrac, globalOfCloudWPerM2, LEAST_UP_RATIO } from '../split.ts'
import type { SunPath } from '../sun-path.ts'

type Column = Float64Array | undefined

export interface LightCells {
  readonly globalWPerM2: Column
  readonly beamWPerM2: Column
  readonly diffuseWPerM2: Column
  readonly cloudFrac: Column
}

export interface Light {
  readonly globalWPerM2: Float64Array | null
  readonly beamWPerM2: Float64Array | null
  readonly diffuseWPerM2: Float64Array | null
  /** How each came to be, where it is not from the file. */
  readonly how: Readonly<Partial<Record<'globalWPerM2' | 'beamWPerM2' | 'diffuseWPerM2', string>>>
  /** Beam or diffuse by rule from the global. */
  readonly split: boolean
}

/**
 * The three lights of the level from those that a file holds. Of two the third follows: global = beam · sin h + diffuse. The global alone
 * is split by Erbs. With cloud alone the global follows from it and the sun's height (Kasten & Czeplak), then Erbs. NaN stays NaN.
 */
export function lightOf(cells: LightCells, path: SunPath): Light {
  const { globalWPerM2: global, beamWPerM2: beam, diffuseWPerM2: diffuse, cloudFrac } = cells
  const up = (i: number) => path.meanUpRatio[i] as number
  const outside = (i: number) => PHYSICS.solarWPerM2 * (path.distanceRatio[i] as number)
  const none = { globalWPerM2: null, beamWPerM2: null, diffuseWPerM2: null, how: {}, split: false }
  if (global !== undefined && beam !== undefined && diffuse !== undefined)
    return { globalWPerM2: global, beamWPerM2: beam, diffuseWPerM2: diffuse, how: {}, split: false }
  if (global === undefined && beam !== undefined && diffuse !== undefined) {
    const sum = beam.map((b, i) => b * up(i) + (diffuse[i] as number))
    return {
      globalWPerM2: sum,
      beamWPerM2: beam,
      diffuseWPerM2: diffuse,
      how: { globalWPerM2: 'direct · sine of the sun’s height + diffuse' },
      split: false,
    }
  }
  if (global !== undefined && beam !== undefined) {
    const rest = global.map((g, i) => Math.max(0, g - (beam[i] as number) * up(i)))
    return {
      globalWPerM2: global,
      beamWPerM2: beam,
      diffuseWPerM2: rest,
      how: { diffuseWPerM2: 'level less direct · sine of the sun’s height' },
      split: false,
    }
  }
  if (global !== undefined && diffuse !== undefined) {
    const normal = global.map((g, i) =>
      up(i) < LEAST_UP_RATIO ? 0 : Math.min(outside(i), Math.max(0, g - (diffuse[i] as number)) / up(i)),
    )
    return {
      globalWPerM2: global,
      beamWPerM2: normal,
      diffuseWPerM2: diffuse,
      how: { beamWPerM2: 'level less diffuse, over the sine of the sun’s height' },
      split: false,
    }
  }
  if (global !== undefined) return splitLight(global, path, {})
  if (cloudFrac === undefined) return none
  const dimmed = cloudFrac.map((n, i) =>
    Number.isNaN(n) ? n : (path.litFrac[i] as number) * globalOfCloudWPerM2(path.upRatio[i] as number, n),
  )
  return splitLight(dimmed, path, { globalWPerM2: 'from the cloud by the rule of Kasten and Czeplak' })
}

function splitLight(global: Float64Array, path: SunPath, how: Light['how']): Light {
  const beam = new Float64Array(global.length)
  const diffuse = global.map((g, i) => {
    const up = path.meanUpRatio[i] as number
    const outside = PHYSICS.solarWPerM2 * (path.distanceRatio[i] as number)
    if (Number.isNaN(g) || up < LEAST_UP_RATIO || g <= 0) return g
    const share = diffuseFrac(Math.min(1, g / (outside * up)))
    beam[i] = Math.min(outside, (g * (1 - share)) / up)
    return g - (beam[i] as number) * up
  })
  const words = 'split from the light on the level by the rule of Erbs'
  return {
    globalWPerM2: global,
    beamWPerM2: beam,
    diffuseWPerM2: diffuse,
    how: { ...how, beamWPerM2: words, diffuseWPerM2: words },
    split: true,
  }
}
