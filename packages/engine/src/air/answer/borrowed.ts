import { formatNumber } from '../../kernel/index.ts'
import type { Borrowed } from '../facts/climate.ts'
import { COMPUTED, line, type Noted, noted } from './finding.ts'

/** Within this of the site a place's months pass for the site's own, to a kelvin or so. @source common practice */
const NEAR_M = 50_000
const LEVEL_M = 300

/**
 * The months of the year are another place's. Everything else is worked out and shown, but of a place farther than 50 km, or 300 m higher or lower, nothing
 * is known by it: valleys hold cold air, shores hold it off, and 6.5 K/km is a mean of the free air.
 */
export function borrowedMonths(box: string, of: Borrowed, assumed: readonly string[]): Noted {
  const near = of.distanceM <= NEAR_M && Math.abs(of.higherM) <= LEVEL_M
  const months = of.meanC.map((t) => formatNumber(Math.round(t * 10) / 10, { digits: 4, shortest: true })).join(' ')
  return noted({
    code: 'air/months-of-elsewhere',
    subject: box,
    verdict: near ? 'tight' : 'unknown',
    basis: 'physics',
    said: `Nobody has said how warm each month is. The year is made from the ${of.said}: ${months} °C from January. ${
      near
        ? 'That is near enough to go by; months of the site itself are better.'
        : 'That is too far away, or too much higher or lower, to judge this box by: ask the nearest weather station for the twelve means and write them as “mean-by-month”.'
    }`,
    title: `Whose months the year of ${box} has`,
    steps: [
      line('distance', 'from the site to the place', [], of.distanceM / 1000, 'km', COMPUTED),
      line('height', 'of the site over the place', [], of.higherM, 'm', COMPUTED),
    ],
    assumed,
    decides: 'whoever has measured on site',
  })
}
