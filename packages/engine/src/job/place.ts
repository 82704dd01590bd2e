import { bounded, FROZEN_RATIO, SUN_RISE_K, soilOhmM, told } from './bounds.ts'
import { boxAirFacts } from './box-air.ts'
import type { Notes } from './notes.ts'
import type { BoxRow, PhaseRow } from './schema/boxes.ts'
import type { JobDocument } from './schema/job.ts'
import type { BoxWanted, Phase, Site, Span } from './types.ts'
import { boxWords } from './yard.ts'

type Facts = NonNullable<JobDocument['facts']>

/** Site and climate as the power questions read them. */
export function siteOf(facts: Facts | undefined, note: Notes): Site {
  const site = facts?.site
  const climate = facts?.climate
  if (site?.elevation === undefined)
    note.lacks(
      'facts.site.elevation',
      'job',
      'The height of the site above the sea is not said; a generator’s derating cannot be judged.',
      ['supply'],
    )
  const soil = soilOf(site, note)
  const permafrost = site?.ground?.permafrost === true
  return {
    place: site?.place ?? 'not said',
    latitudeDeg: site?.latitude ?? null,
    elevationM: site?.elevation ?? 0,
    designMinC: climate?.['design-min'] ?? null,
    designMaxC: climate?.['design-max'] ?? null,
    extremeMinC: climate?.['extreme-min'] ?? climate?.['design-min'] ?? null,
    meanCByMonth: climate?.['mean-by-month'] ?? null,
    soilOhmM: soil.open,
    frozenSoilOhmM: soil.frozen,
    frostDepthM: note.span(
      site?.ground?.['frost-depth'],
      permafrost ? bounded(0, 20, 'permafrost: common practice') : bounded(0, 3, 'no frost to deep frost: common practice'),
      'facts.site.ground.frost-depth',
      permafrost ? 'frost 0 to 20 m deep' : 'frost 0 to 3 m deep',
    ),
    temporary: site?.temporary ?? null,
  }
}

function soilOf(site: Facts['site'], note: Notes): { readonly open: Span; readonly frozen: Span } {
  const soil = site?.soil
  const said = [soil?.resistivity, soil?.wet, soil?.dry].filter((r) => r !== undefined)
  const kind = soil?.kind ?? (site?.ground?.permafrost === true ? 'granite or permafrost' : undefined)
  const open =
    said.length > 0
      ? { low: Math.min(...said), high: Math.max(...said), basis: 'the job document', told: true }
      : note.span(undefined, soilOhmM(kind), 'facts.site.soil.resistivity', 'soil resistivity within the range of its kind')
  if (soil?.frozen !== undefined) return { open, frozen: told(soil.frozen) }
  const frozen = bounded(
    open.low * FROZEN_RATIO[0],
    open.high * FROZEN_RATIO[1],
    `unfrozen soil times ${FROZEN_RATIO[0]} to ${FROZEN_RATIO[1]} (table soil-temperature)`,
  )
  return { open, frozen: note.span(undefined, frozen, 'facts.site.soil.frozen', 'frozen soil 2.3 to 46 times the unfrozen') }
}

/** Boxes that are wanted. None written: one of 20 ft, recorded. */
export function boxesOf(rows: readonly BoxRow[], facts: Facts | undefined, note: Notes): readonly BoxWanted[] {
  if (rows.length === 0) note.or(undefined, 1, 'boxes', 'one box of 20 ft, standard height', 'the usual box: common practice')
  const wanted: readonly BoxRow[] = rows.length === 0 ? [{ id: 'box' }] : rows
  return wanted.map((row, index) => boxOf(row, `boxes[${index}]`, facts, note))
}

/** Both ends of a winter nobody has told. */
const UNTOLD_COLD_C = { low: -50, high: 5 }

function boxOf(row: BoxRow, path: string, facts: Facts | undefined, note: Notes): BoxWanted {
  const climate = facts?.climate
  const coldest = climate?.['extreme-min'] ?? climate?.['design-min']
  const low = coldest ?? UNTOLD_COLD_C.low
  const high = climate?.['design-max'] ?? 30
  const heated = row.heated ?? null
  const held = heated ?? climate?.['design-min'] ?? (coldest === undefined ? UNTOLD_COLD_C.high : low)
  const hot = bounded(
    high,
    high + SUN_RISE_K,
    `design maximum to ${SUN_RISE_K} K above it, as in an unventilated box (an operator’s rough table: read, weak)`,
  )
  const cold = bounded(
    Math.min(low, held),
    Math.max(low, held),
    coldest === undefined
      ? 'nobody has said how cold it gets: from a far northern winter to a mild one (common practice)'
      : heated === null
        ? 'extreme to design minimum: an unheated box'
        : 'extreme minimum to what the heater is to hold',
  )
  return {
    id: row.id,
    lengthFt:
      row.length === undefined
        ? note.or(undefined, 20, `${path}.length`, `${row.id}: 20 ft long`, 'the usual box: common practice')
        : row.length / 0.3048,
    heightKind: row.height ?? 'standard',
    heatedC: heated === null ? null : told(heated),
    insideHotC: note.span(
      row['inside-hot'],
      hot,
      `${path}.inside-hot`,
      `${row.id}: air inside ${hot.low} to ${hot.high} C at its hottest, a range not worked out by the hour`,
    ),
    insideColdC: note.span(
      row['inside-cold'],
      cold,
      `${path}.inside-cold`,
      `${row.id}: air inside ${cold.low} to ${cold.high} C at its coldest, a range not worked out by the hour`,
    ),
    spareWaysFrac:
      row['spare-ways'] ??
      note.or(undefined, 0.25, `${path}.spare-ways`, `${row.id}: 25 % spare ways`, 'trade custom, 20 to 25 %: common practice'),
    ...(row['fed-from'] === undefined ? {} : { fedFrom: { box: row['fed-from'].box, lengthM: row['fed-from'].distance } }),
    ...(row.distances === undefined ? {} : { distances: row.distances.map((d) => ({ box: d.box, lengthM: d.distance })) }),
    ...(row['door-faces'] === undefined ? {} : { doorFacesDeg: row['door-faces'] }),
    ...boxWords(row),
    ...boxAirFacts(row),
  }
}

/** Phases of the stay. None written: one, the whole stay. */
export function phasesOf(rows: readonly PhaseRow[], stayMonths: number): readonly Phase[] {
  if (rows.length === 0)
    return [{ id: 'stay', fromMonth: 1, toMonth: Math.max(1, Math.ceil(stayMonths)), said: 'the whole stay' }]
  return rows.map((row) => ({
    id: row.id,
    fromMonth: row.months.from,
    toMonth: row.months.to,
    said: row.what ?? row.id,
    ...(row.boxes === undefined ? {} : { boxes: row.boxes }),
  }))
}
