import { amount } from './figures.ts'
import { DAYS, FIRST_OF_MONTH, MONTH_DAYS } from './months.ts'

const TURNS_C = amount('snow comes and goes at')

/** Months with snow, where nobody says: those whose mean is −2 °C or colder. Common practice. */
export const snowByMean = (meanC: readonly number[]): boolean[] => meanC.map((mean) => mean <= TURNS_C)

/**
 * Days on which snow lies. Between a month with and a month without it comes and goes on the day on which the season's curve crosses −2 °C
 * between their middles; where it does not cross there, at the turn of the month.
 */
export function snowDays(snowLies: readonly boolean[], seasonC: Float64Array): boolean[] {
  const out = Array<boolean>(DAYS).fill(false)
  for (let m = 0; m < 12; m++) {
    const next = (m + 1) % 12
    const middle = (FIRST_OF_MONTH[m] as number) + Math.floor((MONTH_DAYS[m] as number) / 2)
    const end = middle + spanDays(m, next)
    const [now, then] = [snowLies[m] === true, snowLies[next] === true]
    let turn = end
    if (now !== then) {
      turn = (FIRST_OF_MONTH[m] as number) + (MONTH_DAYS[m] as number)
      for (let d = middle; d < end; d++) {
        const cold = (seasonC[d % DAYS] as number) <= TURNS_C
        const before = (seasonC[(d + DAYS - 1) % DAYS] as number) <= TURNS_C
        if (cold === then && before === now) {
          turn = d
          break
        }
      }
    }
    for (let d = middle; d < end; d++) out[d % DAYS] = d < turn ? now : then
  }
  return out
}

const spanDays = (m: number, next: number): number => {
  const rest = (MONTH_DAYS[m] as number) - Math.floor((MONTH_DAYS[m] as number) / 2)
  return rest + Math.floor((MONTH_DAYS[next] as number) / 2)
}
