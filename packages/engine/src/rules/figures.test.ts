import { describe, expect, test } from 'vitest'
import { heatingK } from './common/adiabatic.ts'
import { bookOf, figure, rests, tableOf } from './common/book.ts'
import { provenanceWord, vouched } from './common/provenance.ts'
import { classATimeS } from './common/residual.ts'
import { ruleSets, rulesFor } from './index.ts'
import { setTables } from './set-tables.ts'
import { type TableId, tables } from './tables.generated.ts'

const { us, ca, intl } = ruleSets
const book = {
  us: bookOf('us', setTables('us', tables)),
  ca: bookOf('ca', setTables('ca', tables)),
  intl: bookOf('intl', setTables('intl', tables)),
}
const words = (id: TableId, ...columns: number[]): string =>
  tables[id].rows.map((row) => columns.map((c) => row[c]).join(' ')).join('\n')

describe('single figures stand in the words of the printed tables', () => {
  const both = (set: 'us' | 'ca' | 'intl', name: string, text: string, printed: RegExp) => {
    const found = printed.exec(text)?.[1]
    expect(found, `${name}: ${printed}`).toBeDefined()
    expect(figure(book[set], name).value, name).toBeCloseTo(Number(found), 9)
  }
  test('continuous loads', () => {
    const text = words('continuous', 0, 1, 2)
    both('us', 'continuous-from', text, /us (\d) h or more/)
    both('us', 'continuous-ratio', text, /conductor >= ([\d.]+) continuous/)
    both('ca', 'continuous-small-over', text, /over (\d) h in any 2 h/)
    both('ca', 'continuous-small-to', text, /in any 2 h \((\d+) A or less\)/)
    both('ca', 'continuous-large-over', text, /over (\d) h in any 6 h/)
    expect(figure(book.ca, 'device-holds').value).toBe(Number(/load <= (\d+) %/.exec(text)?.[1]) / 100)
    both('intl', 'overload-limit', text, /I2 <= ([\d.]+) Iz/)
  })
  test('small conductors, next size up and terminals of ca', () => {
    const text = words('ca-ampacity', 0, 1)
    expect(text).toMatch(/14 AWG 15 A, 12 AWG 20 A, 10 AWG 30 A copper; 12 AWG 15 A, 10 AWG 25 A aluminium/)
    expect(tables['ca-small-conductor'].rows).toEqual([
      ['14', 15, null],
      ['12', 20, 15],
      ['10', 30, 25],
    ])
    both('ca', 'next-up-to', text, /up to (\d+) A \(2012/)
    both('ca', 'terminal-low', text, /terminal temperature: (\d+) C up to/)
    both('ca', 'terminal-low-to', text, /60 C up to (\d+) A/)
    both('ca', 'no-rise-below', text, /no increase below (\d+) C/)
  })
  test('motors', () => {
    const text = tables['us-motor-ocpd'].notes.join('\n')
    both('us', 'motor-hard-start-large', text.replace(/(\d)00 % over 100 A/, '$1 over'), /(\d) over/)
    both('us', 'motor-hard-start-small', text.replace(/(\d)00 % breaker <=100 A/, '$1 small'), /(\d) small/)
    both('us', 'motor-feeder-ratio', text.replace('feeder 125 % of the largest', 'feeder 1.25 of'), /feeder ([\d.]+) of/)
    both(
      'ca',
      'motor-conductor-ratio',
      text.replace('28-106 conductor 125 %', '28-106 conductor 1.25'),
      /28-106 conductor ([\d.]+)/,
    )
  })
  test('vehicle heaters of ca', () => {
    const text = words('demand', 0, 1, 2)
    const [, a, a20, b, b20, c, c20, r, r20, s, s20, t, t20] = (
      /controlled (\d+) \((\d+)\) W first 30, (\d+) \((\d+)\) W next 30, (\d+) \((\d+)\) W rest; restricted or controlled (\d+) \((\d+)\), (\d+) \((\d+)\), (\d+) \((\d+)\) W/.exec(
        text,
      ) ?? []
    ).map(Number)
    expect(tables['ca-vehicle-heater'].rows).toEqual([
      [30, a, a20, r, r20],
      [60, b, b20, s, s20],
      ['rest', c, c20, t, t20],
    ])
    both('us', 'general-strap', text, /(\d+) VA each strap/)
    expect(figure(book.us, 'general-full-to').value).toBe(Number(/first (\d+) kVA 100 %/.exec(text)?.[1]) * 1000)
  })
  test('electrodes and the electrode conductor', () => {
    const text = words('earthing-rules', 0, 1)
    both('us', 'rod-length', text, /us rod >= ([\d.]+) m/)
    both('us', 'rod-spacing', text, />= ([\d.]+) m apart, unless/)
    both('ca', 'rod-length', text, /two rods \((\d) m long/)
    both('ca', 'rod-spacing', text, /product standard\), >= (\d) m apart/)
    both('intl', 'touch-limit', text, /RA x IDn <= (\d+) V/)
    both('intl', 'tt-steady', text, /below (\d+) ohm/)
    expect(tables['us-gec'].notes[0]).toMatch(/never need exceed 6 AWG copper \(or 4 AWG aluminium\)/)
    expect(tables['ca-bonding'].notes.join()).toMatch(/at least 6 AWG copper \(Rule 10-114\)/)
    const pe = tables['intl-pe'].notes.join()
    both('intl', 'earth-conductor-bare', pe, /unprotected against corrosion: (\d+) mm2 copper/)
    both('intl', 'earth-conductor-protected', pe, /protected against corrosion only: (\d+) mm2/)
  })
  test('drop, disconnection, factors, cold loop', () => {
    const drop = words('drop-limits', 0, 1)
    both('us', 'drop-branch', drop, /us branch (\d),/)
    both('us', 'drop-total', drop, /together (\d) /)
    both('ca', 'drop-total', drop, /supply side to load (\d)/)
    both('intl', 'drop-lighting', drop, /lighting (\d), other/)
    both('intl', 'drop-other', drop, /other (\d); private/)
    both('intl', 'drop-private-lighting', drop, /private source (\d) and/)
    both('intl', 'drop-private-other', drop, /private source \d and (\d)/)
    both('intl', 'drop-long-from', drop, /runs over (\d+) m/)
    both('intl', 'drop-long-per-m', drop, /\+ ([\d.]+) per m/)
    both('intl', 'drop-long-most', drop, /at most \+ ([\d.]+)/)
    const off = tables.disconnect.notes.join()
    both('intl', 'distribution-tn', off, /circuits: (\d) s TN/)
    both('intl', 'distribution-tt', off, /(\d) s TT/)
    both('intl', 'voltage-max', words('iec60909-c', 0, 1), /max, tolerance \+10 % ([\d.]+)/)
    both('intl', 'voltage-min', words('iec60909-c', 0, 1), /min, tolerance \+10 % \(2016 edition\) ([\d.]+)/)
    both('intl', 'cold-loop', words('tests', 3), /2\/3 Uo\/Ia = ([\d.]+)/)
    both('us', 'motor-contribution', words('motor-contribution', 0, 1), /us (\d) x full-load/)
    both('intl', 'motor-contribution', words('motor-contribution', 0, 1), /I = (\d) x rated/)
  })
  test('transformers of ca', () => {
    const text = tables['us-transformer-ocpd'].notes.join()
    expect(text).toMatch(
      /dry type primary 125 % \(next up\), or primary feeder device 300 % with a secondary device of at most 125 %, next size DOWN; other than dry type 26-252: 150 % \(under 9 A 167, under 2 A 300\)/,
    )
    const shares = [
      'transformer-dry-primary',
      'transformer-dry-feeder',
      'transformer-secondary',
      'transformer-other-primary',
      'transformer-other-primary-under-9',
      'transformer-other-primary-under-2',
    ]
    expect(shares.map((name) => figure(book.ca, name).value)).toEqual([1.25, 3, 1.25, 1.5, 1.67, 3])
  })
  test('cords: lowest temperature is the warmer end of what the printed table gives, when moved', () => {
    for (const [types, , , lowest] of tables['cord-types'].rows) {
      for (const type of String(types).split(', ')) {
        const row = tables['cord-jackets'].rows.find((r) => r[0] === type)
        if (row === undefined) continue
        const warmest = typeof lowest === 'number' ? lowest : Number(/[+-]?\d+/.exec(String(lowest))?.[0])
        expect(row[3], type).toBe(warmest)
      }
    }
    expect([us.cordColdC('SEOOW').value, intl.cordColdC('H07RN-F').value, us.cordColdC('no such cord').value]).toEqual([
      -50,
      -25,
      null,
    ])
  })
  test('class A interrupters by their formula', () => {
    expect(tables.gfci.rows[0]?.[3]).toMatch(/\(20\/I\)\^1\.43 s, I in mA, at most 7\.26 s; 0\.025 s at 264 mA/)
    expect(classATimeS(book.us, 0.004).value).toBe(7.26)
    expect(classATimeS(book.us, 0.3).value).toBe(0.025)
    expect(() => classATimeS(book.us, 0)).toThrow('rules/current-range')
  })
})

describe('bands say what the printed table says', () => {
  test('IEC 60898: 1.13 and 1.45 for an hour, two above 63 A; 2.55 within 60 or 120 s; B 3–5, C 5–10, D 10–20', () => {
    const b16 = intl.tripBand('IEC 60898 B', 16)
    expect([
      b16.holdsRatio,
      b16.thermalSlow[0],
      b16.thermalSlow[1],
      b16.magneticFromRatio,
      b16.magneticSureRatio,
      b16.referenceC,
    ]).toEqual([1.13, [1.45, 3600], [2.55, 60], 3, 5, 30])
    expect(intl.tripBand('IEC 60898 C', 80).thermalSlow.slice(0, 2)).toEqual([
      [1.45, 7200],
      [2.55, 120],
    ])
    expect(
      ['B', 'C', 'D'].map((k) => {
        const t = intl.tripBand(`IEC 60898 ${k}`, 32)
        return [t.magneticFromRatio, t.magneticSureRatio]
      }),
    ).toEqual([
      [3, 5],
      [5, 10],
      [10, 20],
    ])
  })
  test('UL 489: 135 % in one or two hours, 200 % in 2, 4, 6, 8, 10 min by size', () => {
    const at200 = [30, 31, 50, 51, 100, 150, 225].map(
      (deviceA) => us.tripBand('us thermal-magnetic', deviceA).thermalSlow.find(([ratio]) => ratio === 2)?.[1],
    )
    expect(at200).toEqual([120, 240, 240, 360, 360, 480, 600])
    expect([50, 60].map((deviceA) => us.tripBand('us thermal-magnetic', deviceA).thermalSlow[0])).toEqual([
      [1.35, 3600],
      [1.35, 7200],
    ])
    expect([20, 30, 40, 200].map((deviceA) => us.tripBand('us thermal-magnetic', deviceA).magneticSureRatio)).toEqual([
      20, 20, 10, 10,
    ])
  })
  test('past the last printed point the slow edge keeps I²t to the sure magnetic trip', () => {
    const [, last, sure] = us.tripBand('us thermal-magnetic', 20).thermalSlow
    expect(sure![0]).toBe(20)
    expect(sure![1] * sure![0] ** 2).toBeCloseTo(last![1] * last![0] ** 2, 6)
  })
  test('a family or rating without a band is a fault, not a guess', () => {
    expect(() => us.tripBand('unheard of', 20)).toThrow('rules/trip-family')
    expect(() => intl.tripBand('IEC 60898 C', 160)).toThrow('rules/trip-family')
  })
})

describe('checked against something outside the tables', () => {
  test('ambient factors are √((Tc − Ta)/(Tc − 30)) within a unit of the last printed digit', () => {
    const near = (printed: unknown, c: number, a: number) => {
      if (typeof printed === 'number')
        expect(Math.abs(printed - Math.sqrt((c - a) / (c - 30))), `${c} at ${a}`).toBeLessThan(0.0101)
    }
    for (const [a, c60, c75, c90] of tables['us-ambient'].rows)
      for (const [cell, c] of [
        [c60, 60],
        [c75, 75],
        [c90, 90],
      ] as const)
        near(cell, c, a as number)
    for (const [a, pvc, xlpe] of tables['intl-ambient'].rows)
      for (const [cell, c] of [
        [pvc, 70],
        [xlpe, 90],
      ] as const)
        near(cell, c, a as number)
    for (const [a, cord] of tables['intl-cord-ambient'].rows) near(cord, 60, a as number)
  })
  test('k of the ICEA formula agrees with IEC 60364-5-54 to 2 %: 115 and 143 for copper, 76 and 94 for aluminium', () => {
    const k = (metal: 'cu' | 'al', initialC: number, finalC: number) => heatingK(book.us, { metal, initialC, finalC }).value
    for (const [ours, theirs] of [
      [k('cu', 70, 160), 115],
      [k('cu', 90, 250), 143],
      [k('al', 70, 160), 76],
      [k('al', 90, 250), 94],
    ] as const) {
      expect(Math.abs(ours / theirs - 1)).toBeLessThan(0.02)
    }
    expect(() => heatingK(book.us, { metal: 'cu', initialC: 90, finalC: 90 })).toThrow('rules/adiabatic-range')
  })
  test('conduits of intl take no more than the wiring-guide factors allow at 3.5 m and two bends', () => {
    // Factors read at rm-electrical.com and pibcak.co.uk (conduit and trunking capacity charts): one conductor, and the conduit’s term.
    const factor: Record<string, number> = {
      '1.5 mm2': 22,
      '2.5 mm2': 30,
      '4 mm2': 43,
      '6 mm2': 58,
      '10 mm2': 105,
      '16 mm2': 145,
      '25 mm2': 217,
    }
    const term: Record<string, number> = { '16 mm': 136, '20 mm': 222, '25 mm': 404, '32 mm': 720 }
    let seen = 0
    for (const [size, each] of Object.entries(factor)) {
      for (let n = 1; n <= 12; n++) {
        const trade = intl.racewayFor(Array(n).fill({ size, insulation: 'PVC' }), 'conduit').value!
        if (term[trade] === undefined) continue
        seen += 1
        expect(n * each, `${n} × ${size} in ${trade}`).toBeLessThanOrEqual(term[trade])
      }
    }
    expect(seen).toBeGreaterThan(40)
  })
  test('resistance times area is that of copper at its temperature, in both tables', () => {
    const { sizes } = us
    for (const { name, areaMm2 } of sizes) {
      const rho = us.impedanceOhmPerM({ size: name, metal: 'cu', where: 'cord', temperatureC: 20 }).value.r * areaMm2 * 1e3
      expect(rho).toBeGreaterThan(17.2)
      expect(rho).toBeLessThan(18)
    }
    for (const { name, areaMm2 } of intl.sizes) {
      const rho = intl.impedanceOhmPerM({ size: name, metal: 'cu', where: 'conduit', temperatureC: 20 }).value.r * areaMm2 * 1e3
      expect(rho).toBeGreaterThan(17)
      expect(rho).toBeLessThan(19.5)
    }
  })
  test('steel makes more reactance than plastic, hot copper more resistance; no column for a place is a fault', () => {
    const z = (where: string, temperatureC = 75) =>
      us.impedanceOhmPerM({ size: '4/0 AWG', metal: 'cu', where, temperatureC }).value
    expect(z('EMT').x).toBeCloseTo(0.051 / 304.8, 12)
    expect(z('PVC 40').x).toBeCloseTo(0.041 / 304.8, 12)
    expect(z('EMT').r).toBeCloseTo(0.063 / 304.8, 12)
    expect(us.impedanceOhmPerM({ size: '12 AWG', metal: 'al', where: 'EMT', temperatureC: 75 }).value.r).toBeCloseTo(
      3.25 / 304.8,
      12,
    )
    expect(z('EMT', -30).r / z('EMT').r).toBeCloseTo(1 - 0.00323 * 105, 9)
    expect(() => z('a ditch')).toThrow('rules/where')
    expect(intl.impedanceOhmPerM({ size: '2.5 mm2', metal: 'cu', where: 'cord', temperatureC: 70 }).value.r).toBeCloseTo(
      (7.98 / 1000) * (1 + 0.00393 * 50),
      12,
    )
    expect(() => intl.impedanceOhmPerM({ size: '16 mm2', metal: 'al', where: 'conduit', temperatureC: 70 })).toThrow(
      'rules/no-row',
    )
  })
})

describe('how firm a row is', () => {
  test('the weakest word of a line counts, and no word counts as memory', () => {
    expect(provenanceWord('read (us); memory (ca)')).toBe('memory')
    expect(provenanceWord('computed, agrees with read')).toBe('read')
    expect(provenanceWord('nobody knows')).toBe('memory')
  })
  test('cells of a mixed table each say their own', () => {
    const by = tables['provenance-by-row']
    const word = (id: TableId, at: number, column: string) => vouched(by, tables[id], at, column)
    expect(word('us-ambient', 0, 'c90').word).toBe('read')
    expect(word('us-ambient', 0, 'c60').word).toBe('memory')
    expect(word('us-ambient', 6, 'c60').word).toBe('read')
    expect(word('box-fill', 2, 'us').word).toBe('read')
    expect(word('box-fill', 2, 'ca').word).toBe('memory')
    expect(word('ca-bonding', 1, 'cu')).toEqual({ word: 'read', edition: 'CE Code 2024' })
    expect(word('ca-bonding', 3, 'cu').word).toBe('memory')
    expect(word('ca-bonding', 1, 'al').word).toBe('memory')
    expect(word('intl-ampacity-pvc3', 12, 'B1').word).toBe('memory')
    expect(word('intl-ampacity-pvc3', 12, 'C').word).toBe('read')
  })
  test('nothing that its table calls recalled is shown as read, but for the cells named in provenance-by-row', () => {
    const by = tables['provenance-by-row']
    const named = new Set(by.rows.map((row) => String(row[0])))
    for (const table of Object.values(tables)) {
      table.rows.forEach((row, at) => {
        const { word } = vouched(by, table, at, table.columns[0]!)
        const own = row[table.columns.indexOf('row_provenance')]
        const line = typeof own === 'string' ? own : table.provenance
        if (word === 'read' && !named.has(table.id)) expect(line, `${table.id} ${String(row[0])}`).toMatch(/read/)
      })
    }
  })
  test('every cell of every table has a place to cite, without the reference’s own file names', () => {
    for (const set of ['us', 'ca', 'intl'] as const) {
      for (const table of Object.values(book[set].tables)) {
        table.rows.forEach((_row, at) => {
          const from = rests(book[set], tableOf(book[set], table.id), at, table.columns.at(-1)!)
          expect(from.place, table.id).not.toMatch(/^, row|\.md|^ /)
        })
      }
    }
  })
})

describe('motor tables and outlets', () => {
  test('a motor’s volts find their column: 240 V reads 230, 220 reads 230, 480 reads 460, 600 reads 575', () => {
    const at = (voltageV: number) => us.motorDeviceA({ hp: 10, currentA: 1, voltageV, phases: 3 }).value.tableA
    expect([at(200), at(208), at(220), at(240), at(480), at(600)]).toEqual([32.2, 30.8, 28, 28, 14, 11])
    expect(at(690)).toBe(1)
    expect(() => us.motorDeviceA({ currentA: 0, voltageV: 240, phases: 1 })).toThrow('rules/motor-current')
  })
  test('every outlet’s rating is a device of its set or below one', () => {
    for (const rules of [us, ca, intl, rulesFor('intl', { overlays: ['uk'] })]) {
      for (const outlet of rules.outlets) expect(rules.nextDeviceA(outlet.ratingA).value, outlet.id).toBe(outlet.ratingA)
      expect(rules.outletNamed('hard-wired')).toBeNull()
      expect(rules.outletNamed('hard-wired', { ratingA: 35, phases: 3, connection: 'LLL', voltageV: 208 })?.ratingA).toBe(35)
      expect(rules.outletNamed('banana')).toBeNull()
      expect(rules.outletNamed('')).toBeNull()
    }
  })
  test('names that people write for an outlet are known', () => {
    const id = (name: string) => us.outletNamed(name)?.id
    expect([id('L14-30R equivalent'), id('5-30R style'), id('60 A 125/250 V style four-wire'), id('60 A four-pole')]).toEqual([
      'L14-30R',
      '5-30R',
      '14-60R',
      '60 A four-pole pin and sleeve',
    ])
    expect(intl.outletNamed('5-20R')).toBeNull()
  })
  test('a cord in the heat: 12 AWG SOOW two loaded 25 A at 30 °C, times 0.87 at 45 °C, not raised in the cold', () => {
    const cord = (ambientC: number, type = 'SOOW') => us.cordAmpacityA({ size: '12 AWG', type, loaded: 2, ambientC }).value
    expect([cord(30), cord(-40)]).toEqual([25, 25])
    expect(cord(45)).toBeCloseTo(25 * 0.87, 9)
    expect(cord(45, 'SJT')).toBeCloseTo(25 * 0.71, 9)
    expect(us.cordAmpacityA({ size: '12 AWG', type: 'SOOW', loaded: 3, ambientC: 30 }).value).toBe(20)
    expect(() => cord(30, 'string')).toThrow('rules/no-row')
  })
  test('aluminium: 100 A at 75 °C is 1 AWG, 12 AWG stands behind 15 A at most, 14 AWG is not made', () => {
    const al = {
      metal: 'al',
      insulation: 'XHHW-2',
      continuousA: 0,
      otherA: 100,
      deviceA: 100,
      deviceFamily: 'us thermal-magnetic',
      loaded: 2,
      carrying: 2,
      circuits: 1,
      ambientC: 30,
      multiOutlet: true,
      motor: false,
      terminalC: 75,
    } as const
    expect(us.conductorFor(al).value).toBe('1 AWG')
    expect(us.conductorFor({ ...al, otherA: 14, deviceA: 15 }).value).toBe('12 AWG')
    expect(us.conductorFor({ ...al, otherA: 14, deviceA: 20 }).value).toBe('10 AWG')
    expect(() => intl.conductorFor({ ...al, insulation: 'XLPE', deviceFamily: 'IEC 60898 C' })).toThrow('rules/insulation')
  })
  test('parallel sets carry together, from 1/0 AWG up', () => {
    const task = {
      metal: 'cu',
      insulation: 'THWN-2',
      continuousA: 200,
      otherA: 100,
      deviceA: 400,
      deviceFamily: 'us thermal-magnetic',
      loaded: 2,
      carrying: 2,
      circuits: 1,
      ambientC: 30,
      multiOutlet: false,
      motor: false,
      sets: 2,
    } as const
    expect(us.conductorFor(task).value).toBe('3/0 AWG')
    expect(us.conductorFor({ ...task, deviceA: 100, continuousA: 20, otherA: 10 }).value).toBe('1/0 AWG')
  })
})
