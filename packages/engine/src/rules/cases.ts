import { adiabaticAreaMm2, adiabaticCurrentA } from './common/adiabatic.ts'
import { type Book, bookOf, figure } from './common/book.ts'
import { steppedDemandVA } from './common/demand.ts'
import { classATimeS } from './common/residual.ts'
import { sizeCell, sizeName } from './common/size.ts'
import { ambientFactor as intlAmbient, groupingFactor as intlGrouping, tableA } from './intl/ampacity.ts'
import { ambientFactor, columnA, groupingFactor } from './north/ampacity.ts'
import { in3, racewayFor } from './north/raceway.ts'
import type { North } from './north/spec.ts'
import type { ConductorTask } from './rule-set.ts'
import { ruleSets, rulesFor } from './rules.ts'
import { setTables } from './set-tables.ts'
import { tables } from './tables.generated.ts'

/**
 * Adapters of the published cases that the rule sets answer alone: the case's `given` in, our values under the keys of its `expect` out.
 * The shape of `given` is the source's, one case each.
 */
export const rulesCases: Record<string, (given: any) => Record<string, unknown>> = {
  'need-01': (g) => {
    const net = dwellingVA(g.general_VA + g.small_appliance_VA + g.laundry_VA)
    const total = net + g.range_VA + g.dryer_VA
    return { net_general_VA: net, total_VA: total, current_A: total / g.voltage_V }
  },
  'need-02': (g) => {
    const share = figure(usBook, 'neutral-range-dryer').value
    const neutral = g.net_general_VA + share * (g.range_VA + g.dryer_VA)
    return { neutral_VA: neutral, neutral_A: neutral / g.voltage_V }
  },
  'need-03': (g) => {
    const load = g.receptacles * figure(usBook, 'general-strap').value
    const receptacles = steppedDemandVA({
      loadVA: load,
      fullToVA: figure(usBook, 'general-full-to').value,
      restFrac: figure(usBook, 'general-rest').value,
    })
    const continuous = g.general_lighting_VA + g.show_window_VA + g.sign_VA
    const demand = ruleSets.us.demandA({
      continuousA: continuous / g.voltage_V,
      otherA: 0,
      largestMotorA: 0,
      generalVA: load,
      lineV: g.voltage_V,
    })
    return {
      receptacle_demand_VA: receptacles,
      continuous_VA: continuous,
      subtotal_VA: receptacles + continuous,
      lighting_circuit_A: ruleSets.us.deviceNeedA({ continuousA: g.actual_lighting_VA / g.voltage_V, otherA: 0 }).value,
      with_125pct_VA: demand.value * g.voltage_V,
      service_min_A: demand.value,
      standard_device_A: ruleSets.us.nextDeviceA(demand.value).value,
    }
  },
  'need-04': (g) => {
    const [largest, others] = [g.motors[0], g.motors[1]]
    const sum = largest.n * g.duty_factor * largest.A + others.n * g.duty_factor * others.A
    const diverse = g.demand_factor * sum
    const controllers = ruleSets.us.deviceNeedA({ continuousA: g.controllers * g.controller_A, otherA: 0 }).value
    return {
      largest_A: g.duty_factor * largest.A,
      other_A: g.duty_factor * others.A,
      sum_A: sum,
      diverse_A: diverse,
      feeder_A: diverse + controllers,
    }
  },
  'need-08': (g) => {
    const total = (g.general_VA as number[]).reduce((a, b) => a + b, 0) + g.dryer_VA + g.range_VA + g.fixed_VA + g.heating_VA
    const demand = ruleSets.us.demandA({
      continuousA: 0,
      otherA: total / g.voltage_V,
      largestMotorA: 0,
      generalVA: 0,
      lineV: g.voltage_V,
    })
    return { total_VA: total, current_A: demand.value }
  },
  'sup-02': (g) => ({
    demand_W: ruleSets.ca.vehicleHeaterDemandW({ count: g.receptacles, circuitA: 15, restricted: g.restricted, nameplateW: 0 })
      ?.value,
  }),
  'cir-01': (g) => {
    const motor = ruleSets.us.motorDeviceA({ hp: g.hp, voltageV: g.voltage_V, phases: g.phases, currentA: 1 }).value
    const size = ruleSets.us.sizes.find((s) => columnA(usBook, s.name, 'cu', 75).value >= motor.conductorA)
    return {
      flc_A: motor.tableA,
      conductor_min_A: motor.conductorA,
      conductor_75C: size === undefined ? null : sizeCell(size.name),
      breaker_max_A: motor.deviceMaxA,
    }
  },
  'cir-03': (g) => {
    const flc = (g.hp as number[]).map(
      (hp) => ruleSets.us.motorDeviceA({ hp, voltageV: g.voltage_V, phases: g.phases, currentA: 1 }).value.tableA,
    )
    return { flc_A: flc, feeder_min_A: ruleSets.us.motorFeederA(flc).value }
  },
  'cir-04': (g) => {
    const others = g.others_A as number[]
    const device = ruleSets.us.motorFeederDeviceA({ largestDeviceA: g.largest_branch_device_A, othersA: others })
    return { sum_A: device.steps[0]?.result, device_A: device.value }
  },
  'cir-05': (g) => fill(g.conductors, 'THWN', g.raceway),
  'cir-07': (g) => fill(g.conductors, g.insulation, g.raceway),
  'cir-08': (g) => {
    const conductors = (g.cables as [string, number][]).flatMap(([size, n]) => Array<string>(n).fill(sizeName(size)))
    const volume = in3(
      ruleSets.us.boxFill?.({
        conductors,
        devices: g.device_yokes,
        deviceWire: sizeName(g.device_wire),
        clamps: true,
        grounds: 3,
      }).value ?? Number.NaN,
    )
    return { volume_in3: volume, fits: volume <= g.box_in3 }
  },
  'cir-10': (g) => {
    const size = sizeName(g.size)
    const conductors = Array<string>(g.conductors).fill(size)
    const box = ruleSets.us.boxFill?.({
      conductors,
      devices: g.device_yokes,
      deviceWire: size,
      clamps: false,
      grounds: g.grounds,
    })
    const counts = box?.steps.flatMap((s) => s.values.filter((v) => v.symbol === 'n').map((v) => Number(v.value))) ?? []
    return { equivalents: counts.reduce((a, b) => a + b, 0), volume_in3: in3(box?.value ?? Number.NaN) }
  },
  'cir-11': (g) => {
    const { us } = ruleSets
    const deviceA = us.nextDeviceA(us.deviceNeedA({ continuousA: g.load_A, otherA: 0 }).value).value ?? Number.NaN
    const task: ConductorTask = {
      ...TASK,
      continuousA: g.load_A,
      deviceA,
      carrying: g.current_carrying,
      ambientC: g.ambient_C,
      terminalC: g.terminals_C,
      insulation: 'THWN-2',
      metal: g.material,
    }
    const need = us.deviceNeedA({ continuousA: g.load_A, otherA: 0 }).value
    const factor = ambientFactor(usNorth, g.insulation_C, g.ambient_C).value * groupingFactor(usNorth, g.current_carrying).value
    const terminal = us.sizes.find((s) => columnA(usBook, s.name, 'cu', g.terminals_C).value >= need)
    const chosen = us.conductorFor(task).value
    return {
      device_A: deviceA,
      terminal_need_A: need,
      terminal_size: terminal === undefined ? null : sizeCell(terminal.name),
      condition_factor: factor,
      size_90C_need_A: deviceA / factor,
      chosen: chosen === null ? null : sizeCell(chosen),
    }
  },
  'cir-13': (g) => {
    const k = intlAmbient(intlBook, g.insulation, g.ambient_C).value * intlGrouping(intlBook, g.circuits_touching).value
    const chosen = ruleSets.intl.conductorFor({
      ...TASK,
      insulation: g.insulation,
      continuousA: g.Ib_A,
      deviceA: g.In_A,
      deviceFamily: 'IEC 60898 C',
      loaded: g.loaded,
      circuits: g.circuits_touching,
      ambientC: g.ambient_C,
      method: g.method,
    }).value
    return {
      k,
      I0_need_A: g.In_A / k,
      table_C_25mm2_A: tableA(intlBook, '25 mm2', { insulation: g.insulation, loaded: g.loaded, metal: 'cu', method: 'C' }).value,
      size_mm2: chosen === null ? null : sizeCell(chosen),
    }
  },
  'cir-14': (g) => ({
    factor: (g.Tc_C as number[]).map((c) =>
      c === 70 ? intlAmbient(intlBook, 'PVC', g.Ta_C).value : ambientFactor(usNorth, c, g.Ta_C).value,
    ),
  }),
  'flt-13': (g) => {
    const k = ruleSets.intl.adiabaticK({ metal: 'cu', insulation: g.insulation }).value
    return { k, I_kA: adiabaticCurrentA({ areaMm2: g.mm2, timeS: g.t_s, k }) / 1000 }
  },
  'flt-15': (g) => ({ S_mm2: adiabaticAreaMm2({ currentA: g.I_A, timeS: g.t_s, k: g.k }) }),
  'flt-16': (g) => {
    const zs = (g.devices as [string, number][]).map(
      ([letter, deviceA]) => uk.loopLimitOhm({ family: `IEC 60898 ${letter}`, deviceA, toEarthV: g.Uo_V }).value,
    )
    const cold = uk.coldLoopFrac()?.value ?? Number.NaN
    return { zs_ohm: zs, cold_reading_0p8_ohm: zs.map((z) => z * cold) }
  },
  'tst-01': (g) => ({ t_s: (g.I_mA as number[]).map((mA) => classATimeS(usBook, mA / 1000).value) }),
  'tst-03': (g) => ({
    R_ohm:
      g.length_m *
      ruleSets.us.impedanceOhmPerM({ size: sizeName(g.size), metal: 'cu', where: 'PVC', temperatureC: g.copper_C }).value.r,
  }),
}

const uk = rulesFor('intl', { overlays: ['uk'] })
const usBook: Book = bookOf('us', setTables('us', tables))
const intlBook: Book = bookOf('intl', setTables('intl', tables))
const usNorth: North = {
  book: usBook,
  grouping: 'us-grouping',
  smallConductor: 'us-small-conductor',
  insulation: 'us-insulation',
  ratings: 'us',
  coldRaises: true,
  conditionsCarry: 'the current',
  motorRounds: 'up',
}
const TASK: ConductorTask = {
  metal: 'cu',
  insulation: 'THWN-2',
  continuousA: 0,
  otherA: 0,
  deviceA: 0,
  deviceFamily: 'us thermal-magnetic',
  loaded: 2,
  carrying: 2,
  circuits: 1,
  ambientC: 30,
  multiOutlet: false,
  motor: false,
}

const dwellingVA = (loadVA: number): number =>
  steppedDemandVA({ loadVA, fullToVA: figure(usBook, 'dwelling-full-to').value, restFrac: figure(usBook, 'dwelling-rest').value })

function fill(conductors: readonly (readonly [string, number])[], insulation: string, kind: string) {
  const wires = conductors.flatMap(([size, n]) =>
    Array<{ size: string; insulation: string }>(n).fill({ size: sizeName(size), insulation }),
  )
  const found = racewayFor(usNorth, wires, kind)
  return { area_in2: found.areaIn2, trade: found.value }
}
