import type { JobDocument } from './schema/job.ts'
import type { BuiltBox } from './types.ts'

type Built = NonNullable<NonNullable<JobDocument['facts']>['built']>

/** The box as it stands, as the power questions read it. */
export function builtOf(row: Built | undefined): BuiltBox | null {
  if (row === undefined) return null
  return {
    rulesWhenBuilt: row['rules-when-built'],
    system: row.system,
    serviceA: row.service,
    interruptingKA: row.interrupting / 1000,
    ways: row.ways,
    circuits: row.circuits.map((c) => ({
      outlet: c.outlet,
      count: c.count ?? 1,
      deviceA: c.device,
      poles: c.poles,
      conductor: c.conductor,
      shock: c.shock,
    })),
    cords: (row.cords ?? []).map((c) => ({
      count: c.count ?? 1,
      size: c.size,
      lengthM: c.length,
      jacketMarkedC: c['marked-to'] ?? null,
    })),
    outletDeviceMinC: row['outlet-device-min'] ?? null,
    electrodeOhm: row['electrode-reading'] ?? null,
    neutralBond: row['neutral-bond'],
    approval: row.approval,
    lastFullTestMonthsAgo: row['last-full-test'] ?? null,
    defects: row.defects ?? [],
  }
}
