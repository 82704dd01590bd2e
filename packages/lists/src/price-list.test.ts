import { readPrices } from '@plugstead/engine/parts'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type PriceList, priceTable, readPriceList, workbook } from './index.ts'

const bytes = (words: string) => new TextEncoder().encode(words)
const HEAD = 'id,price,per,date,source,supplier,pack,waste,currency'
const read = async (words: string, currency?: string): Promise<PriceList> => {
  const list = await readPriceList(bytes(words), currency === undefined ? {} : { currency })
  if (!list.ok) throw new Error(JSON.stringify(list.problems))
  return list.value
}
const wrongs = async (words: string, currency = 'USD') => {
  const list = await readPriceList(bytes(words), { currency })
  return list.ok ? [] : list.problems.map((p) => `${p.code} ${p.path ?? ''}`.trim())
}

describe('a list of prices', () => {
  test('is read with supplier, pack, waste and another currency; columns nobody knows are named', async () => {
    const { prices, notRead } = await read(
      `${HEAD},colour\r\nconductor/12 AWG/cu,0.55,m,2026-09-15,quote 12,"Wire, invented",100,5 %,USD,red\r\nhour/welder,70 USD,h,2026-09-15,own,,,,\r\nplate/x,12,m2,2026-09-15,own,,,,EUR\r\n`,
    )
    expect(prices.currency).toBe('USD')
    expect(prices.rows['conductor/12 AWG/cu']).toEqual({
      ...{ id: 'conductor/12 AWG/cu', money: 0.55, per: 'm', date: '2026-09-15', source: 'quote 12' },
      ...{ supplier: 'Wire, invented', packCount: 100, wasteFrac: 0.05 },
    })
    expect(prices.rows['plate/x']?.currency).toBe('EUR')
    expect(notRead).toEqual(['colour'])
  })

  test('is the same from a workbook, and by semicolons', async () => {
    const rows = [HEAD.split(','), ['a', 0.55, 'm', '2026-09-15', 'q', 'S', 100, 0.05, 'USD']]
    const book = await readPriceList(workbook([{ name: 'list', widths: [], rows }]))
    const text = await read(`${HEAD.replaceAll(',', ';')}\na;0.55;m;2026-09-15;q;S;100;5 %;USD\n`)
    if (!book.ok) throw new Error(JSON.stringify(book.problems))
    expect(book.value).toEqual(text)
  })

  test('every problem is named with its row and cell, all at once', async () => {
    expect(
      await wrongs(
        `${HEAD}\n,1,m,2026-09-15,q,,,,\nb,"0,55",m,2026-09-15,q,,,,\nc,1,yd,2026-09-15,q,,,,\nd,1,m,2026-02-30,q,,,,\ne,1,m,2026-09-15,,,,,\nf,1,m,2026-09-15,q,,0,,\ng,1,m,2026-09-15,q,,,500 %,\nh,1,m,2026-09-15,q,,,,usd\nh2,-1,m,2026-09-15,q,,,,\ni,1,m,2026-09-15,q,,,,\ni,1,m,2026-09-15,q,,,,\n`,
      ),
    ).toEqual([
      ...['list/id A2', 'list/money B3', 'list/per C4', 'list/date D5', 'list/source E6', 'list/pack G7', 'list/waste H8'],
      ...['list/currency I9', 'list/money B10', 'list/id A12'],
    ])
    expect(await wrongs('id,price\na,1\n')).toEqual(['list/head'])
    expect(await wrongs('')).toEqual(['list/head'])
    expect(await wrongs(`${HEAD},price\n`)).toEqual(['list/head-twice'])
    expect(await wrongs(`${HEAD}\n"a,1`)).toEqual(['list/quote-open'])
    expect(await wrongs(`${HEAD}\na,1,m,2026-09-15,q,,,,\n`, '')).toEqual(['list/currency I2'])
  })

  test('a cell that begins like a formula is words: as an item it is a name, as a price it is refused', async () => {
    const { prices } = await read(`${HEAD}\n=HYPERLINK(1),1,m,2026-09-15,@x,,,,USD\n`)
    expect(prices.rows['=HYPERLINK(1)']?.source).toBe('@x')
    expect(await wrongs(`${HEAD}\na,=1+1,m,2026-09-15,q,,,,\n`)).toEqual(['list/money B2'])
  })

  test('bytes that are neither are refused in words', async () => {
    const of = async (b: Uint8Array) => {
      const list = await readPriceList(b)
      return list.ok ? 'read' : list.problems[0]!.code
    }
    expect(await of(new Uint8Array([0x50, 0x4b, 3, 4, 9, 9]))).toBe('list/not-a-workbook')
    expect(await of(new Uint8Array([0xff, 0xfe, 0xff]))).toBe('list/not-text')
  })

  test('written as a price table and read by the engine it is the same', async () => {
    const words = fc
      .string({ unit: fc.constantFrom('a', 'b', "'", '"', ' ', ':', '#', '{', '=', '/', '1'), minLength: 1, maxLength: 12 })
      .map((w) => `x${w.trim()}`)
    const row = fc.record({
      ...{ id: words, money: fc.double({ min: 0, max: 1e6, noNaN: true }), per: fc.constantFrom('m', 'm2', 'each', 'h') },
      ...{
        source: words,
        supplier: fc.option(words, { nil: undefined }),
        packCount: fc.option(fc.integer({ min: 1, max: 500 }), { nil: undefined }),
      },
    })
    fc.assert(
      fc.property(fc.uniqueArray(row, { selector: (r) => r.id, minLength: 1, maxLength: 8 }), (rows) => {
        const prices = {
          currency: 'USD',
          rows: Object.fromEntries(
            rows.map(({ supplier, packCount, ...r }) => [
              r.id,
              {
                ...r,
                date: '2026-09-15',
                ...(supplier === undefined ? {} : { supplier }),
                ...(packCount === undefined ? {} : { packCount }),
              },
            ]),
          ),
        }
        expect(readPrices(priceTable(prices, 'a note'))).toEqual({ ok: true, value: prices })
      }),
      { seed: 9, numRuns: 60 },
    )
  })
})
