import { impedancePct, subtransientPct, told, xOverR } from './bounds.ts'
import type { Notes } from './notes.ts'
import type { JobDocument } from './schema/job.ts'
import { systemById } from './systems.ts'
import type { Offer, RuleSetId, SystemId, Tariff, TransformerOffered } from './types.ts'

type Supply = NonNullable<NonNullable<JobDocument['facts']>['supply']>
type OfferRow = NonNullable<Supply['offers']>[number]
type TransformerRow = NonNullable<OfferRow['transformer']>

const DAY_S = 86_400
const phasesOf = (system: SystemId): 1 | 3 => systemById(system)?.phases ?? 1

/** Offers as the engine sees them; ids are given by kind and order where none is written. */
export function offersOf(supply: Supply | undefined, set: RuleSetId, system: SystemId, note: Notes): readonly Offer[] {
  return (supply?.offers ?? []).map((row, index) => offerOf(row, index, set, system, supply?.offers ?? [], note))
}

export const offerId = (
  row: { readonly id?: string | undefined; readonly kind: string },
  index: number,
  all: readonly { readonly kind: string }[],
): string => row.id ?? `${row.kind}-${all.slice(0, index + 1).filter((o) => o.kind === row.kind).length}`

function offerOf(
  row: OfferRow,
  index: number,
  set: RuleSetId,
  jobSystem: SystemId,
  all: readonly OfferRow[],
  note: Notes,
): Offer {
  const path = `facts.supply.offers[${index}]`
  const id = offerId(row, index, all)
  const system = row.system ?? jobSystem
  const available = row.available ?? true
  const distanceM =
    row.distance ??
    (available ? note.or(undefined, 30, `${path}.distance`, `${id}: 30 m to the box`, 'the call’s default: common practice') : 30)
  const ownBond = set !== 'intl' && row.kind !== 'generator'
  const earthing =
    row.earthing ??
    (ownBond
      ? note.or(
          undefined,
          'service bond',
          `${path}.earthing`,
          `${id}: neutral bonded at the service`,
          'usual under this rule set: common practice',
        )
      : null)
  if (earthing === null && available && row.kind !== 'generator')
    note.lacks(`${path}.earthing`, id, `Offer ${id} does not say which earthing it brings.`, ['supply', 'faults'])
  if (row.kind === 'utility' && available && row.service === undefined)
    note.lacks(`${path}.service`, id, `Offer ${id} does not say which service sizes it has.`, ['supply'])
  const generator = row.kind === 'generator' ? generatorOf(row, id, path, note) : undefined
  return {
    id,
    kind: row.kind,
    what: row.what ?? row.kind,
    system,
    available,
    serviceA: row.service ?? [],
    ...(row.transformer === undefined
      ? {}
      : { transformer: transformerOf(row.transformer, set, phasesOf(system), path, id, note) }),
    ...(row.fault === undefined
      ? {}
      : { faultA: { value: row.fault.current, by: row.fault.by, ofAny: row.fault.of === 'any kind' } }),
    distanceM,
    ...(row.overhead === undefined ? {} : { overhead: row.overhead }),
    leadDays: row['lead-time'] === undefined ? null : row['lead-time'] / DAY_S,
    oneOffMoney: row['one-off']?.amount ?? null,
    ...(row.hire === undefined ? {} : { hirePer28DaysMoney: row.hire.amount }),
    ...(row.energy === undefined ? {} : { energyMoneyPerKWh: row.energy.amount }),
    ...(generator === undefined ? {} : { generator }),
    ...(row.spare === undefined ? {} : { spareA: row.spare }),
    ...(row['spare-power'] === undefined ? {} : { spareKVA: row['spare-power'] / 1000 }),
    ...(row['spare-phases'] === undefined ? {} : { sparePhases: row['spare-phases'] }),
    ...(row['supply-voltage'] === undefined ? {} : { supplyV: row['supply-voltage'] }),
    earthing,
    earthingForbidden: row['earthing-forbidden'] ?? false,
    ...(row['notice-to-cut'] === undefined ? {} : { noticeH: row['notice-to-cut'] / 3600 }),
    ...(row['quiet-hours'] === undefined ? {} : { quietHours: row['quiet-hours'] }),
    note: row.note ?? '',
  }
}

function transformerOf(
  row: TransformerRow,
  set: RuleSetId,
  systemPhases: 1 | 3,
  path: string,
  id: string,
  note: Notes,
): NonNullable<Offer['transformer']> {
  const kVA = row.rating / 1000
  const phases = row.phases ?? systemPhases
  return {
    kVA,
    impedancePct:
      row.impedance === undefined
        ? note.span(
            undefined,
            impedancePct(set, phases, kVA),
            `${path}.transformer.impedance`,
            `${id}: transformer impedance within the range usual for its size`,
          )
        : told(row.impedance * 100),
    xOverR: note.span(
      row['x-over-r'],
      xOverR(set, phases, kVA),
      `${path}.transformer.x-over-r`,
      `${id}: X/R within the range usual for its size`,
    ),
    phases,
    ...(row['loss-no-load'] === undefined ? {} : { noLoadLossW: row['loss-no-load'] }),
    ...(row['loss-full-load'] === undefined ? {} : { fullLoadLossW: row['loss-full-load'] }),
  }
}

function generatorOf(row: OfferRow, id: string, path: string, note: Notes): Offer['generator'] {
  const set = row.generator
  if (set?.['rated-power'] === undefined && set?.rated === undefined) {
    if (row.available !== false)
      note.lacks(`${path}.generator`, id, `Generator ${id} gives neither kW nor kVA.`, ['supply', 'faults'])
    return undefined
  }
  const share = 'a set is rated at power factor 0.8: common practice'
  const ratedKVA =
    set.rated !== undefined
      ? set.rated / 1000
      : note.or(
          undefined,
          (set['rated-power'] as number) / 800,
          `${path}.generator.rated`,
          `${id}: kVA from its kW at power factor 0.8`,
          share,
        )
  const ratedKW =
    set['rated-power'] !== undefined
      ? set['rated-power'] / 1000
      : note.or(
          undefined,
          (set.rated as number) * 0.0008,
          `${path}.generator.rated-power`,
          `${id}: kW from its kVA at power factor 0.8`,
          share,
        )
  return {
    ratedKW,
    ratedKVA,
    sets: set.sets ?? 1,
    subtransientPct:
      set.subtransient === undefined
        ? note.span(
            undefined,
            subtransientPct(ratedKVA),
            `${path}.generator.subtransient`,
            `${id}: subtransient reactance within the range usual for its size`,
          )
        : told(set.subtransient * 100),
    turbo: set.turbo ?? null,
    boostExcitation: set['boost-excitation'] ?? null,
    neutralBondFactory: set['neutral-bonded-at-set'] ?? null,
  }
}

export function ownTransformersOf(supply: Supply | undefined, set: RuleSetId, note: Notes): readonly TransformerOffered[] {
  return (supply?.['own-transformers'] ?? []).map((row, index) => {
    const kVA = row.rating / 1000
    const path = `facts.supply.own-transformers[${index}]`
    return {
      kVA,
      impedancePct:
        row.impedance === undefined
          ? note.span(
              undefined,
              impedancePct(set, row.phases ?? 3, kVA, true),
              `${path}.impedance`,
              'own transformer: impedance within the range usual for its size',
            )
          : told(row.impedance * 100),
      xOverR: note.span(
        row['x-over-r'],
        xOverR(set, row.phases ?? 3, kVA, true),
        `${path}.x-over-r`,
        'own transformer: X/R within the range usual for its size',
      ),
      phases: row.phases ?? 3,
      noLoadLossW: row['loss-no-load'] ?? null,
      fullLoadLossW: row['loss-full-load'] ?? null,
      massKg: row.mass ?? null,
    }
  })
}

/** Tariff; what is not written is null, and the length of the demand window is assumed by rule set. */
export function tariffOf(supply: Supply | undefined, set: RuleSetId, currency: string, note: Notes): Tariff {
  const t = supply?.tariff
  const blocks = t?.blocks ?? (t?.energy === undefined ? [] : [{ price: t.energy }])
  const usual = set === 'intl' ? 30 : 15
  const demanded = t?.['demand-kw'] !== undefined || t?.['demand-kva'] !== undefined
  return {
    currency,
    fixedMoneyPerMonth: t?.fixed?.amount ?? null,
    blocks: blocks.map((b) => ({
      upToKWh: 'up-to' in b && b['up-to'] !== undefined ? b['up-to'] / 3.6e6 : null,
      moneyPerKWh: b.price.amount,
    })),
    demandMoneyPerKW: t?.['demand-kw']?.amount ?? null,
    demandMoneyPerKVA: t?.['demand-kva']?.amount ?? null,
    demandWindowMin:
      t?.['demand-window'] !== undefined
        ? t['demand-window'] / 60
        : demanded
          ? note.or(
              undefined,
              usual,
              'facts.supply.tariff.demand-window',
              `demand is averaged over ${usual} min`,
              'usual under this rule set: common practice',
            )
          : usual,
    ratchetFrac: t?.ratchet ?? 0,
    powerFactorFloorFrac: t?.['power-factor-floor'] ?? null,
    dieselMoneyPerL: t?.diesel?.amount ?? null,
  }
}
