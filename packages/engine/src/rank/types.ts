import type { Design } from '../job/index.ts'
import { type Finding, QUESTIONS, type Verdict } from '../kernel/index.ts'

/** Why a box does not do for a call as it stands; one word each, whatever findings say it. What has no word is of its question. */
export const REASONS = [
  'system',
  'service',
  'outlets',
  'interrupting',
  'cold',
  'heat',
  'snow',
  'length',
  'unload',
  'test',
  'defects',
  'booked',
  'pinned',
  'rules',
  ...QUESTIONS,
] as const
export type Reason = (typeof REASONS)[number]

export interface ReasonGiven {
  readonly reason: Reason
  /** Codes of the findings that give it. */
  readonly codes: readonly string[]
  readonly said: readonly string[]
}

export type RankedKind = 'box in the yard' | 'box of the job' | 'model' | 'new plan'

/** How a candidate does, best first. */
export const DOES = ['as it stands', 'after a test', 'as drawn', 'with changes', 'as planned', 'not'] as const
export type Does = (typeof DOES)[number]

export interface ChangePart {
  readonly tag: string
  readonly what: string
  readonly action: string
  readonly quantity: number
  readonly asBuilt: string
  readonly needed: string
  readonly why: string
}

/** What must be done before it does. */
export interface ChangesNeeded {
  readonly parts: readonly ChangePart[]
  readonly hours: { readonly low: number; readonly middle: number; readonly high: number }
  /** Something cannot be counted before it was looked at. */
  readonly hoursAreFloor: boolean
  readonly materialMoney: number
  /** Hours at the shop's rate; null: no rate is known. */
  readonly labourMoney: number | null
  /** What has no price, by name. */
  readonly lacking: readonly string[]
  /** Work of which nobody can count the hours before somebody looked. */
  readonly uncounted: readonly string[]
  readonly moneyIsFloor: boolean
  /** Working days of one person, hours over eight. */
  readonly days: number
  /** Codes and subjects that fail even then. */
  readonly stillFails: readonly string[]
  readonly staysUnknown: readonly string[]
}

export interface PriceLine {
  readonly what: string
  /** Null: nobody has said it. */
  readonly money: number | null
  /** Who says it, or why nobody does. */
  readonly from?: string
}

/** A rent and a price are never held against each other. */
export type PriceKind = 'rent over the call' | 'sale'

export interface Price {
  readonly is: PriceKind
  readonly lines: readonly PriceLine[]
  readonly totalMoney: number
  readonly currency: string
  /** What is in no sum, by name; then the sum is a floor. */
  readonly lacking: readonly string[]
  readonly isFloor: boolean
  /** The thing itself has a price of this kind; else the sum is only what is done to it. */
  readonly isPriced: boolean
}

export interface Ranked {
  readonly rankCount: number
  readonly kind: RankedKind
  readonly id: string
  readonly name: string
  readonly revision: string | null
  readonly does: Does
  /** Of what was judged: a reason fails; nothing told of something is unknown, never OK. */
  readonly verdict: Verdict
  /** Against it as it stands, in the order of `REASONS`. */
  readonly reasons: readonly ReasonGiven[]
  /** Codes that nobody could judge. */
  readonly unknown: readonly string[]
  readonly changes: ChangesNeeded | null
  /** Earliest day it can be there; null: unknown. */
  readonly earliest: string | null
  readonly inTime: boolean | null
  /** Of the kind that all are ranked by. */
  readonly price: Price
  /** Of the other kind: for the caller to see, in no ranking. */
  readonly priceBeside: Price
  readonly whyNotBetter: string
  readonly findings: readonly Finding[]
  /** Design that was judged. */
  readonly design: Design | null
}

export interface Ranking {
  readonly ranked: readonly Ranked[]
  readonly rankedBy: PriceKind
  readonly rankedByBecause: string
  /** Times `assess` or a search was asked: counted work. */
  readonly judgedCount: number
}
