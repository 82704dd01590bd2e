import { judgeUpper, put, source, step, type Working } from '../../kernel/index.ts'
import { type Judged, judged, shown } from '../judged.ts'
import type { Frame, Member } from './frame.ts'
import type { NutForce } from './hang.ts'
import type { HungInputs } from './inputs.ts'
import { NUT_BOLTS, type NutBolt, type NutLimits, nutLimits, nutUse } from './nuts.ts'
import { worstAnd } from './worst.ts'

/** The nuts of one thing: bolt size, count, and the hardest pressed of them. */
export interface NutChoice {
  readonly item: string
  readonly count: number
  readonly bolt: NutBolt
  readonly torqueNm: number
  readonly use: number | null
  readonly case: string
  readonly slipN: number
  readonly pullN: number
  readonly limits: NutLimits | null
}

/** Load of one nut in the channel's own axes: along and across it by friction, away from it by the lips. */
function nutLoad(force: NutForce, member: Member): { readonly slipN: number; readonly pullN: number } {
  const { axes } = member
  return {
    slipN: Math.hypot(force.forceN[axes.along], force.forceN[axes.across]) + force.twistN,
    pullN: Math.max(0, force.forceN[axes.look] * axes.lookSign) + force.pryN,
  }
}

/** Bolt, count and torque of each thing's nuts: the smallest bolt whose nuts hold it in every case; the largest where none does. */
export function nutChoices(frame: Frame): readonly NutChoice[] {
  return frame.items.flatMap(({ item, hung, forces }) => {
    if (hung.nuts.length === 0) return []
    const tries = NUT_BOLTS.map((bolt) => hardest(frame, forces, item.id, hung.nuts.length, bolt))
    return [tries.find((one) => one.use !== null && one.use <= 1) ?? (tries[tries.length - 1] as NutChoice)]
  })
}

function hardest(frame: Frame, forces: readonly (readonly NutForce[])[], item: string, count: number, bolt: NutBolt): NutChoice {
  let worst: NutChoice | null = null
  forces.forEach((inCase, c) => {
    for (const force of inCase) {
      const member = frame.members.get(force.nut.piece) as Member
      const limits = nutLimits({ bolt, section: member.section, inLastInch: force.nut.inLastInch })
      const load = nutLoad(force, member)
      const use = limits === null ? null : nutUse(load, limits)
      if (worst !== null && (worst.use ?? Infinity) >= (use ?? Infinity)) continue
      worst = {
        item,
        count,
        bolt,
        torqueNm: limits?.torqueNm ?? Number.NaN,
        use,
        case: frame.cases[c]?.name ?? '',
        ...load,
        limits,
      }
    }
  })
  return worst as unknown as NutChoice
}

/** Every thing's nuts against slip and pull-out together. */
export function judgeNuts({ box }: HungInputs, choices: readonly NutChoice[]): Judged {
  return worstAnd(
    choices,
    (one) => (one.use === null ? 'unknown' : judgeUpper(one.use, 1)),
    (one) => one.use ?? Infinity,
    (one, whole) => {
      const subject = whole ? `${box} nuts` : `${box} ${one.item}`
      if (one.use === null || one.limits === null)
        return judged({
          code: 'fit/strut-nuts',
          subject,
          verdict: 'unknown',
          basis: 'maker',
          said: `${one.item} hangs on channel of aluminium or thinner than 14 ga: nobody prints what its nuts hold.`,
          provenance: 'memory',
        })
      const working: Working = {
        id: `${box} ${one.item}/nuts`,
        title: `Channel nuts of ${one.item}`,
        steps: [
          step(
            'slip',
            `hardest pressed of ${one.count} nuts, ${one.case}`,
            [],
            one.slipN,
            'N',
            source('elastic group of fasteners', 'computed'),
          ),
          step('pull', 'the same nut, prying counted', [], one.pullN, 'N', source('elastic group of fasteners', 'computed')),
          step('slip allowed', `${one.bolt} bolt, safety of 3, last inch halved`, [], one.limits.slipN, 'N', one.limits.rests),
          step('pull allowed', `${one.bolt} bolt, safety of 3, last inch halved`, [], one.limits.pullN, 'N', one.limits.rests),
          step('use', 'slip/slip allowed + pull/pull allowed', [], one.use, '', source('linear interaction', 'common practice')),
        ],
        judgement: { demand: put('use', one.use), relation: '≤', limit: put('most', 1), tight: '10 %', rests: one.limits.rests },
        notes: [
          `Torque ${shown(one.torqueNm)} N·m is part of the rating: written on the sheet, recorded at acceptance. Threads dry.`,
        ],
      }
      return judged(
        {
          code: 'fit/strut-nuts',
          subject,
          verdict: judgeUpper(one.use, 1),
          basis: 'maker',
          said: `${whole ? `Worst of ${choices.length} things: ` : ''}${one.item} on ${one.count} nuts with ${one.bolt} bolts uses ${shown(one.use * 100)} % of the hardest pressed one, ${one.case}; torque ${shown(one.torqueNm)} N·m.`,
          demand: put('use', one.use),
          limit: put('most', 1),
          provenance: 'memory',
          confirm: true,
        },
        working,
      )
    },
  )
}
