import type { BuildStep, Trade } from '../../shop/result.ts'
import { figure } from './figures.ts'
import type { ShopCrew } from './result.ts'

/** What the chain reads of a box in the shop: its steps with their hours, and the price rows of what is bought. */
export interface ShopWork {
  readonly box: string
  readonly steps: readonly BuildStep[]
  readonly goods: readonly string[]
}

/** Trade that a step waits for. */
export const tradeOf = (step: BuildStep): Trade | null =>
  step.who === "the shop's welder"
    ? 'welder'
    : step.who === "the shop's helper"
      ? 'helper'
      : step.who === 'the painter'
        ? 'painter'
        : step.who === 'the electrician'
          ? 'electrician'
          : null

/** Days of the crew for so many hours: hours over people times hours a day. */
export function crewDays(hours: number, trade: Trade, crew: ShopCrew): number {
  return hours / ((crew.people?.[trade] ?? figure('crew')) * (crew.hoursPerDay ?? figure('shop day')))
}
