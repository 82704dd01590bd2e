import { formatNumber, THIN } from '@plugstead/engine/kernel'

/** Units that a person reads temperatures, flows, winds, lengths and water in. Films stay in g/m², heat in watts: limits of both are told so. */
export type AirUnits = 'metric' | 'us'

const CFM_PER_M3S = 2118.88
const M3H_PER_M3S = 3600
const MPH_PER_M_S = 2.236936
const GROUPED_FROM = 10_000
/** US gallon, 231 cubic inches; US fluid ounce, its 128th. @source NIST SP 811 (2008), Appendix B.8. Provenance: memory */
export const GAL_PER_L = 1 / 3.785411784
const FL_OZ_PER_GAL = 128
const LB_PER_KG = 1 / 0.45359237

/** So many decimals, a true minus, and no sign before zero. */
export function fixed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) return 'unknown'
  const said = Math.abs(value)
    .toFixed(decimals)
    .replace(/\d(?=(\d{3})+(\.|$))/g, (digit) => (Math.abs(value) >= GROUPED_FROM ? `${digit}${THIN}` : digit))
  return value < 0 && /[1-9]/.test(said) ? `−${said}` : said
}

/** A temperature as the number a person reads. */
export const degrees = (valueC: number, units: AirUnits): number => (units === 'us' ? valueC * 1.8 + 32 : valueC)
export const degreeUnit = (units: AirUnits): string => (units === 'us' ? '°F' : '°C')
export const degreesSaid = (valueC: number, units: AirUnits, decimals = 1): string =>
  Number.isFinite(valueC) ? `${fixed(degrees(valueC, units), decimals)}${THIN}${degreeUnit(units)}` : 'not known'

/** A difference of temperature. */
export const kelvinSaid = (valueK: number, units: AirUnits): string =>
  units === 'us' ? `${fixed(valueK * 1.8, 1)}${THIN}°F` : `${fixed(valueK, 1)}${THIN}K`

/** Flow through an opening, without its direction. */
export const flowSaid = (flowM3S: number, units: AirUnits): string =>
  units === 'us'
    ? `${fixed(Math.abs(flowM3S) * CFM_PER_M3S, 0)}${THIN}cfm`
    : `${fixed(Math.abs(flowM3S) * M3H_PER_M3S, 0)}${THIN}m³/h`

export const windSaid = (speedMPerS: number, units: AirUnits): string =>
  units === 'us' ? `${fixed(speedMPerS * MPH_PER_M_S, 1)}${THIN}mph` : `${fixed(speedMPerS, 1)}${THIN}m/s`

export const massSaid = (massKg: number, units: AirUnits): string =>
  units === 'us' ? `${fixed(massKg * LB_PER_KG, 0)}${THIN}lb` : `${fixed(massKg, 0)}${THIN}kg`

export const lengthSaid = (lengthM: number, units: AirUnits): string =>
  units === 'us' ? `${fixed(lengthM / 0.0254, 1)}${THIN}in` : `${fixed(lengthM * 1000, 0)}${THIN}mm`

/** Water in grams up to a litre, then in litres; in fluid ounces up to a quarter of a gallon, then in gallons. */
export function waterSaid(waterG: number, units: AirUnits): string {
  if (units === 'metric')
    return waterG < 999.5 ? `${fixed(waterG, 0)}${THIN}g` : `${fixed(waterG / 1000, waterG < 99_500 ? 1 : 0)}${THIN}l`
  const gal = (waterG / 1000) * GAL_PER_L
  return gal < 0.25
    ? `${fixed(gal * FL_OZ_PER_GAL, gal * FL_OZ_PER_GAL < 9.5 ? 1 : 0)}${THIN}fl${THIN}oz`
    : `${fixed(gal, gal < 9.95 ? 2 : 1)}${THIN}gal`
}

export const filmSaid = (filmGPerM2: number): string =>
  `${fixed(filmGPerM2, filmGPerM2 > 0 && filmGPerM2 < 9.95 ? 1 : 0)}${THIN}g/m²`

/** A figure of a chain of reasons, by its own unit. */
export function reasonSaid(value: number | string, unit: string, units: AirUnits): string {
  if (typeof value === 'string') return unit === '' ? value : `${value}${THIN}${unit}`
  switch (unit) {
    case '°C':
      return degreesSaid(value, units)
    case 'K':
      return kelvinSaid(value, units)
    case 'm/s':
      return windSaid(value, units)
    case 'g/m²':
      return filmSaid(value)
    case 'l':
      return units === 'us' || value < 1 ? waterSaid(value * 1000, units) : `${formatNumber(value)}${THIN}l`
    case '%':
      return `${fixed(value, 0)}${THIN}%`
    case 'g':
      return units === 'us' ? waterSaid(value, units) : `${formatNumber(value)}${THIN}g`
    case 'W':
    case 'W/m²':
      return `${fixed(value, 0)}${THIN}${unit}`
    case '':
      return formatNumber(value)
    default:
      return `${formatNumber(value)}${THIN}${unit}`
  }
}
