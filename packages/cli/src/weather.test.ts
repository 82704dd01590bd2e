import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { charCount } from './print/wrap.ts'
import { plugstead } from './spawned.ts'

const PHOENIX = 'packages/engine/data/weather/phoenix-az-five-days.tmy3.csv'
const root = fileURLToPath(new URL('../../../', import.meta.url))
const shared = fileURLToPath(new URL('../../../../shared/data/weather/', import.meta.url))
let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-weather-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const written = (name: string, data: string | Uint8Array): string => {
  const path = join(folder, name)
  writeFileSync(path, data)
  return path
}

test('a packed file reads as the plain one does, and the JSON holds hours, place, months and the nearest normal', () => {
  const packed = written('phoenix.csv.gz', gzipSync(readFileSync(join(root, PHOENIX))))
  const [a, b] = [plugstead(['weather', PHOENIX, '--json']), plugstead(['weather', packed, '--json', '--out', folder])]
  expect([a.err, b.err]).toEqual(['', ''])
  const [plain, unpacked] = [JSON.parse(a.out), JSON.parse(b.out)]
  const { files, ...rest } = unpacked.result
  expect(rest).toEqual((({ files: _, ...others }) => others)(plain.result))
  expect(plain.result).toMatchObject({ hours: 120, typical: true, place: { latitudeDeg: 33.45, utcOffsetH: -7 }, format: 'tmy3' })
  expect(plain.result.months[0]).toMatchObject({ month: 1, airC: expect.any(Number), normalAirC: expect.any(Number) })
  expect(plain.result.months[6].airC).toBeNull()
  expect(plain.result.normal.name).toContain('Phoenix')
  const csv = readFileSync(files[0], 'utf8').split('\r\n')
  expect([csv.length, csv[0]]).toEqual([122, expect.stringContaining('airC,vapourPa')])
  expect(csv[12]).toContain(',16.7,')
})

test('five days are no year: it is said, and the code is 3', () => {
  const { code, out } = plugstead(['weather', PHOENIX])
  expect(code).toBe(3)
  expect(out).toContain('Refused for the air inside a box')
  expect(out).toContain('not a whole year')
  for (const line of out.split('\n')) expect(charCount(line), line).toBeLessThanOrEqual(80)
})

test('a table without a mapping, a place that is none, a mapping that does not fit and a damaged packet are refused with code 2', () => {
  const table = written('log.csv', 'when,t,rh\n2020-01-01 00:00,1,50\n')
  const map = written(
    'map.yaml',
    'plugstead-weather-columns: 1\ntime: { column: when, stamp: end }\ncolumns: { air: { column: temp, unit: °C } }\n',
  )
  const codes = (...words: readonly string[]) => {
    const { code, out } = plugstead(['weather', ...words, '--json'])
    const { problems, result } = JSON.parse(out)
    expect([code, result]).toEqual([2, null])
    return problems.map((p: { code: string }) => p.code)
  }
  expect(codes(table)).toEqual(['weather/columns-wanted'])
  expect(codes(table, '--place', '95,0,0,0')).toEqual(['command-line/place'])
  expect(codes(table, '--columns', map)).toEqual(['weather/place-missing', 'weather/mapping-column'])
  expect(codes(written('cut.gz', gzipSync('hello, weather, of, all, kinds').subarray(0, 20)))).toEqual(['file/packed'])
  expect(codes(join(folder, 'absent.epw'))).toEqual(['file/absent'])
})

describe.skipIf(!existsSync(shared))('whole files (skipped by name where they are not beside the project)', () => {
  const MAP = 'examples/weather/montreal-qc_2012_hourly.columns.yaml'

  test('an observed leap year by its example mapping: 8784 hours, refused for want of sun, filled when that is said', () => {
    const file = join(shared, 'montreal-qc_2012_hourly.csv.gz')
    const bare = plugstead(['weather', file, '--columns', MAP, '--json'])
    const { result } = JSON.parse(bare.out)
    expect([bare.code, result.hours, result.years, result.refusedForAir.length]).toEqual([3, 8784, [2012], 1])
    const filled = plugstead(['weather', file, '--columns', MAP, '--json', '--fill-from-normals'])
    const after = JSON.parse(filled.out).result
    expect([filled.code, after.hours, after.refusedForAir]).toEqual([0, 8784, []])
    expect(after.filled.map((n: { what: string }) => n.what)).toContain('sun on the level')
  })

  test('a typical year says its sum of sun, and nothing against it', () => {
    const { code, out } = plugstead(['weather', join(shared, 'denver-co_725650TYCST.epw.gz')])
    expect(code).toBe(0)
    expect(out).toContain('1670 kWh/m² a year')
    expect(out).toContain('Nothing in its rows speaks against it')
    for (const line of out.split('\n')) expect(charCount(line), line).toBeLessThanOrEqual(80)
  })
})
