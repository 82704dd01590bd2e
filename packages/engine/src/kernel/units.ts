/**
 * The closed list of endings that an exported number's name may have. SI inside; the unit is the end of the name.
 * Trade sizes (`12 AWG`, `1/2`) are names, not numbers.
 */
export const UNIT_ENDINGS = [
  'A', 'KA', 'MA', 'V', 'KV', 'W', 'KW', 'VA', 'KVA', 'Var', 'Wh', 'KWh', 'VAh', 'Ohm', 'OhmM', 'OhmPerM', 'MOhm', 'S', 'Hz', 'Rad', 'Deg',
  'M', 'Mm', 'M2', 'Mm2', 'M3', 'M3s', 'Kg', 'N', 'Nm', 'Pa', 'KPa', 'J', 'C', 'K', 'H', 'D', 'Min', 'Weeks', 'Months', 'Years', 'Days',
  'L', 'LPerH', 'Frac', 'Pct', 'Pu', 'Ratio', 'Count', 'Money', 'A2s', 'JPerM2', 'Seed', 'MPerS', 'KWhPerM2',
] as const
