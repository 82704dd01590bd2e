import { airCases } from '../air/cases.ts'
import { airYearCases } from '../air/year/cases.ts'
import { boxCases } from '../box/cases.ts'
import { fitCases } from '../fit/cases.ts'
import { haulCases } from '../haul/cases.ts'
import { moneyCases } from '../money/cases.ts'
import { faultCases } from '../power/faults/cases.ts'
import { needsCases } from '../power/needs/cases.ts'
import { reachCases } from '../power/reach/cases.ts'
import { stagingCases } from '../power/staging/cases.ts'
import { supplyCases } from '../power/supply/cases.ts'
import { rulesCases } from '../rules/cases.ts'
import { shopCases } from '../shop/cases.ts'
import { cutCases } from '../shop/cut/cases.ts'
import { datesCases } from '../site/dates/cases.ts'
import { skinCases } from '../skin/cases.ts'
import { weatherCases } from '../weather/cases.ts'
import { weatherFileCases } from '../weather/files/cases.ts'
import { madeYearCases } from '../weather/made-year/cases.ts'
import type { Adapter } from './types.ts'

/** Every domain's adapters, by the id of the published case. */
export const adapters: Readonly<Record<string, Adapter>> = {
  ...rulesCases,
  ...needsCases,
  ...stagingCases,
  ...supplyCases,
  ...reachCases,
  ...faultCases,
  ...boxCases,
  ...fitCases,
  ...haulCases,
  ...skinCases,
  ...cutCases,
  ...shopCases,
  ...datesCases,
  ...moneyCases,
  ...weatherCases,
  ...madeYearCases,
  ...weatherFileCases,
  ...airCases,
  ...airYearCases,
}
