import { annuityFrac, capitalRecoveryFrac, recoveryMoney, returnFrac, sinkingFundFrac } from './interest.ts'
import { marginOfMarkUpFrac, markUpFrac, priceFrom } from './margin.ts'
import { rentFor, termRent } from './rent.ts'
import { triangleMean, triangleVariance } from './triangle.ts'

const POLICY = { useFrac: 0.65, offSeasonFrac: 0, turnRound: '', depositPeriodsCount: 0, minimumPeriodsCount: 0 }

/** A rent with nothing on it but what a case gives. */
const bare = (given: any) =>
  rentFor({
    policy: {
      ...POLICY,
      lifeYears: given.n ?? 10,
      residualFrac: (given.residual ?? 0) / given.cost,
      insuranceFrac: given.insurance ?? 0,
      upkeepFrac: given.upkeep ?? 0,
      useFrac: given.use,
    },
    ...{ costMoney: given.cost, cordsMoney: 0, haulMoney: 0, turnRoundMoney: 0, interestFrac: given.i ?? 0, marginFrac: 0 },
    ...{ periodDays: given.period_days, stayMonths: 12, seasonDays: null, isFloor: false },
  })

const yearly = (given: any): Record<string, unknown> => {
  const term = { interestFrac: given.i, periodsCount: given.n }
  const crf = capitalRecoveryFrac(term)
  const recovery = recoveryMoney({ ...term, costMoney: given.first_cost, residualMoney: given.salvage })
  return { annual: -recovery - given.annual_cost, crf, sff: sinkingFundFrac(term) }
}

export const moneyCases: Record<string, (given: any) => Record<string, unknown>> = {
  'price-01': ({ cost, markup }) => {
    const margin = marginOfMarkUpFrac(markup)
    return { price: priceFrom(cost, margin), margin }
  },
  'price-02': ({ cost, margin }) => ({
    price: priceFrom(cost, margin),
    markup: markUpFrac(margin),
    not_price: priceFrom(cost, marginOfMarkUpFrac(margin)),
  }),
  'fin-01': yearly,
  'fin-02': yearly,
  'fin-03': ({ invest, revenue, expense, salvage, years }) => {
    const payments = [-invest, ...Array.from({ length: years }, () => revenue - expense)]
    payments[years] += salvage
    return { irr: returnFrac(payments) }
  },
  'fin-05': ({ A, i, n }) => ({
    P_n: A * annuityFrac({ interestFrac: i, periodsCount: n }),
    P_infinite: A * annuityFrac({ interestFrac: i, periodsCount: Infinity }),
  }),
  'fin-06': (given) => {
    const { recoveryMoney, rateMoney } = termRent({
      ...{ costMoney: given.cost, residualMoney: given.residual, interestFrac: given.i_year_nominal / 12 },
      ...{ periodsCount: given.months, servicePerPeriodMoney: given.service_per_month, useFrac: given.use_share },
    })
    return { recovery_per_month: recoveryMoney, rent_per_month_when_out: rateMoney }
  },
  'capital-recovery': ({ rates, n }) => ({
    factor: n.map((periodsCount: number) =>
      rates.map((interestFrac: number) => capitalRecoveryFrac({ interestFrac, periodsCount })),
    ),
  }),
  'rent-01': ({ cost, residual, i, n }) => {
    const term = { interestFrac: i, periodsCount: n }
    return { crf: capitalRecoveryFrac(term), recovery: recoveryMoney({ ...term, costMoney: cost, residualMoney: residual }) }
  },
  'rent-02': (given) => {
    const rent = bare(given)
    return {
      ...{ recovery: rent.recoveryMoney, year: rent.yearMoney, periods: rent.periodsPerYearCount },
      ...{ per_period: rent.rateMoney, thumb: rent.thumbMoney },
    }
  },
  'rent-03': (given) => {
    const rent = bare(given)
    return { a_year: rent.thumbMoney * rent.periodsOutCount }
  },
  'spread-01': ({ triangles }) => {
    const all = triangles.map(([lowMoney, likelyMoney, highMoney]: number[]) => ({ lowMoney, likelyMoney, highMoney }))
    const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)
    const [mean, variance] = [all.map(triangleMean), all.map(triangleVariance)]
    return { mean, variance, sum_mean: sum(mean), sum_variance: sum(variance) }
  },
}
