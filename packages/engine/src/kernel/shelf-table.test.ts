import { expect, test } from 'vitest'
import { firmness, type ShelfTable, shelfOf } from './index.ts'

const table: ShelfTable = {
  id: 'bolts',
  title: 'Bolts',
  units: {},
  columns: ['bolt', 'metal', 'torque', 'row_provenance'],
  rows: [
    ['M8', 'steel', 20, 'read a'],
    ['M8', 'brass', 9, 'read b'],
    ['M10', 'steel', null, null],
  ],
  source: 'a leaflet',
  provenance: 'common practice',
  address: 'a second-hand page (host dropped) ; b https://example.org/bolts',
  notes: [],
}
const shelf = shelfOf('yard', { bolts: table })

test('a row is found by its first cell or by several, and one that is not there is a fault of its domain', () => {
  expect(shelf.figure('bolts', 'M8', 'torque')).toEqual({ value: 20, rests: { place: 'table bolts, M8', provenance: 'memory' } })
  expect(shelf.rowOf('bolts', { bolt: 'M8', metal: 'brass' }).torque).toBe(9)
  expect(() => shelf.rowOf('bolts', 'M12')).toThrow('yard/no-row')
  expect(() => shelf.figure('bolts', 'M10', 'torque')).toThrow('yard/no-number')
})

test('a row rests on its own words, else on those of the table, and on the place it is given', () => {
  expect(shelf.sourceOf('bolts', shelf.rowOf('bolts', 'M10'), 'a leaflet, M10')).toEqual({
    place: 'a leaflet, M10',
    provenance: 'common practice',
  })
})

test('the weakest word counts, and what was read at a place without an address counts as recalled', () => {
  const how = (said: string) => firmness(table, said)
  expect(how('read, the last row memory')).toBe('memory')
  expect(how('memory or common practice')).toBe('memory')
  expect(how('read b')).toBe('read')
  expect(how('read b (inside), read a (gross)')).toBe('memory')
  expect(how('read b, a; a misprint')).toBe('memory')
  expect(how('read')).toBe('read')
  expect(how('already added up')).toBe('computed')
})
