import { type BuiltBody, type BuiltBox, type Job, SET_DOWN } from '../job/index.ts'
import { type Finding, formatQuantity, plusDays, put, type Verdict } from '../kernel/index.ts'
import type { Booking } from '../parts/index.ts'

/** First and last day of a call; null where nobody gave the day it is needed by. */
export interface HireTime {
  readonly from: string
  readonly to: string
}

export interface Asked {
  readonly job: Job
  /** Name of the box. */
  readonly id: string
  readonly built: BuiltBox
  readonly body: BuiltBody | null
  readonly bookings: readonly Booking[]
  /** Days a box needs between two hires. */
  readonly turnRoundDays: number
}

/**
 * What a box that stands is asked beyond its circuits, when it is to go to a call as it stands: the same system, the heat, the room, the
 * way it comes off the truck, and its bookings. What is in it is judged by the questions of power.
 */
export function standsFindings(asked: Asked): readonly Finding[] {
  return [systemFinding(asked), heatFinding(asked), lengthFinding(asked), setDownFinding(asked), bookedFinding(asked)]
}

const DAYS_PER_MONTH = 30.4375
const ISO_DAY = /^\d{4}-\d{2}-\d{2}$/

export function hireTimeOf(job: Job): HireTime | null {
  const from = job.needs.neededBy
  if (from === null || !ISO_DAY.test(from)) return null
  return { from, to: plusDays(from, Math.max(0, Math.round(job.needs.stayMonths * DAYS_PER_MONTH))) }
}

/** Calendar months from one day to another: the same day of the next year is exactly 12. Negative when it is before. */
export function monthsBetween(from: string, to: string): number {
  const [y1 = 0, m1 = 0, d1 = 0] = from.split('-').map(Number)
  const [y2 = 0, m2 = 0, d2 = 0] = to.split('-').map(Number)
  return (y2 - y1) * 12 + (m2 - m1) + (d2 - d1) / 31
}

type Told = Pick<Finding, 'code' | 'verdict' | 'basis' | 'said'> & Partial<Finding>

const told = (asked: Asked, more: Told): Finding => ({
  ...{ question: 'keep', subject: asked.id, provenance: 'told', assumed: [], workings: [], mends: [] },
  ...more,
})

const degrees = (c: number) => formatQuantity(c, 'C')
const feet = (m: number) => `${Math.round((m / 0.3048) * 10) / 10} ft`

function systemFinding(asked: Asked): Finding {
  const { built, job } = asked
  const same = built.system === job.system
  return told(asked, {
    ...{ code: 'keep/system', verdict: same ? 'holds' : 'fails', basis: 'house' },
    said: same
      ? `Built for ${built.system}, as the place has it.`
      : `Built for ${built.system}; the place has ${job.system}. As it stands it goes to its own system only: volts, lines, neutral and labels are others.`,
    demand: put('system', job.system),
    limit: put('as built', built.system),
  })
}

/** Nearer than this to the hottest air proved is tight. */
const HEAT_MARGIN_K = 3

function heatFinding(asked: Asked): Finding {
  const hotC = asked.job.site.designMaxC
  const provedC = asked.body?.airMaxC ?? null
  const common = {
    ...{ code: 'keep/heat', basis: 'maker' as const },
    demand: put('T', hotC ?? 'unknown', 'C'),
    limit: put('T proved', provedC ?? 'unknown', 'C'),
  }
  if (hotC === null || provedC === null)
    return told(asked, {
      ...{ ...common, verdict: 'unknown' },
      said:
        hotC === null
          ? 'Nobody has said how hot the place gets.'
          : `The place sees ${degrees(hotC)}; nobody has said what air it was proved in.`,
    })
  const verdict: Verdict = hotC > provedC ? 'fails' : hotC > provedC - HEAT_MARGIN_K ? 'tight' : 'holds'
  return told(asked, {
    ...{ ...common, verdict },
    said: `Proved to carry its service in ${degrees(provedC)}; the place sees ${degrees(hotC)}.`,
  })
}

function lengthFinding(asked: Asked): Finding {
  const { job, body } = asked
  const lengthM = body?.lengthFt == null ? null : body.lengthFt * 0.3048
  const room = job.yard.access.longestBoxM
  const wanted = job.boxes[0] === undefined ? null : job.boxes[0].lengthFt * 0.3048
  const within = (most: number) => lengthM !== null && lengthM <= most + 1e-3
  const verdict: Verdict =
    lengthM === null
      ? 'unknown'
      : room !== null
        ? within(room)
          ? 'holds'
          : 'fails'
        : wanted !== null && within(wanted)
          ? 'holds'
          : 'unknown'
  const said =
    lengthM === null
      ? 'Nobody has said how long it is.'
      : room !== null
        ? `${feet(lengthM)} long; there is room for ${feet(room)}.`
        : `${feet(lengthM)} long; ${feet(wanted ?? 0)} was asked for, and nobody has said what there is room for.`
  return told(asked, {
    ...{ code: 'keep/length', verdict, basis: 'physics', said },
    demand: put('L', lengthM ?? 'unknown', 'm'),
    limit: put('room', room ?? wanted ?? 'unknown', 'm'),
  })
}

/** Taken where the job says nothing, as haul does. */
const USUAL_SET_DOWN = 'tilt-bed'

function setDownFinding(asked: Asked): Finding {
  const { job, body } = asked
  const words = job.yard.access.unload
  const way = SET_DOWN.find((one) => (words ?? USUAL_SET_DOWN).includes(one)) ?? null
  const ways = body?.setDown ?? null
  const verdict: Verdict = way === null || ways === null ? 'unknown' : ways.includes(way) ? 'holds' : 'fails'
  return told(asked, {
    ...{ code: 'keep/set-down', verdict, basis: 'maker' },
    said:
      way === null
        ? `“${words}” names no way that is known.`
        : ways === null
          ? `It is to be set down by ${way}; nobody has said how it may be lifted as it is fitted out.`
          : `It is to be set down by ${way}; as it is fitted out it may be set down by ${ways.join(', ')}.`,
    demand: put('way', way ?? 'unknown'),
    limit: put('ways', ways === null ? 'unknown' : ways.join(', ')),
    assumed: words === null ? ['facts.site.access.unload'] : [],
    caution:
      'Forks and slings only where its pockets, its corners and its mass allow: a box that is fitted out counts as packed.',
    decides: 'the appointed lifting person',
  })
}

function bookedFinding(asked: Asked): Finding {
  const time = hireTimeOf(asked.job)
  const { bookings, turnRoundDays } = asked
  const clash =
    time === null
      ? undefined
      : bookings.find((b) => b.from <= plusDays(time.to, turnRoundDays) && time.from <= plusDays(b.to, turnRoundDays))
  const verdict: Verdict = bookings.length === 0 ? 'holds' : time === null ? 'unknown' : clash === undefined ? 'holds' : 'fails'
  return told(asked, {
    ...{ code: 'keep/booked', verdict, basis: 'house' },
    said:
      bookings.length === 0
        ? 'It has no booking.'
        : time === null
          ? 'It has bookings, and nobody has said from when it is needed.'
          : clash === undefined
            ? `Free from ${time.from} to ${time.to}${turnRoundDays > 0 ? ` and ${turnRoundDays} days either side` : ''}.`
            : `Booked from ${clash.from} to ${clash.to} for ${clash.for}; the call runs from ${time.from} to ${time.to}${turnRoundDays > 0 ? `, and ${turnRoundDays} days lie between two hires` : ''}.`,
    demand: put('call', time === null ? 'unknown' : `${time.from} to ${time.to}`),
    limit: put('booked', clash === undefined ? 'free' : `${clash.from} to ${clash.to}`),
  })
}
