import type { BoxBody } from '@plugstead/engine/box'
import type { WorkingSpace } from '@plugstead/engine/fit'
import type { HaulBox } from '@plugstead/engine/haul'
import type { BoxBuild } from '@plugstead/engine/job'
import type { Verdict } from '@plugstead/engine/kernel'
import type { RacewaySheet, SectionCut } from '@plugstead/engine/shop'
import type { BoxSkin } from '@plugstead/engine/skin'

/** How the sticks of one raceway are bent, and where straight pipe lacks. */
export type RunBends = Pick<RacewaySheet, 'id' | 'bends' | 'pieces' | 'short'>

/** Everything the drawings of one box are made from; nothing is worked out anew. */
export interface DrawnBox {
  readonly body: BoxBody
  readonly build: BoxBuild
  /** Pieces of frames, collars, hoods; null where `skin` was not answered. */
  readonly skin: BoxSkin | null
  readonly spaces: readonly WorkingSpace[]
  /** Null where `haul` was not answered. */
  readonly haul: HaulBox | null
  /** How its channel, tubes and pipes are sawn; absent where `shop` was not answered. */
  readonly cuts?: readonly SectionCut[]
  /** How each raceway is bent; absent where `shop` was not answered. */
  readonly bends?: readonly RunBends[]
  /** Worst that `haul` says of this box or of the job; `unknown` where it was not answered. */
  readonly hauls: Verdict
  /** What does not hold, by the id of the thing it stands beside. */
  readonly marks: Readonly<Record<string, Exclude<Verdict, 'holds'>>>
  /** Ids of things somebody pinned. */
  readonly pinned: readonly string[]
  /** Words to letter, by what they stick on. */
  readonly labels: readonly { readonly on: string; readonly words: string }[]
}

/** What a sheet may say of lifting and hauling at its best, and never more than is so; `by`: who decides. */
export function limitsWords({ hauls }: DrawnBox, by: string): string {
  const said: Readonly<Record<Verdict, string>> = {
    holds: 'Within the limits computed',
    tight: 'Within the limits computed',
    unknown: 'Not all of it could be computed',
    fails: 'Not within the limits computed',
  }
  return `${said[hauls]}; not yet decided by ${by}.`
}
