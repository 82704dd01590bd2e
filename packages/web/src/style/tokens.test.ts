import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'

const css = readFileSync(join(import.meta.dirname, 'tokens.css'), 'utf8')

/** Colours of the block that begins with a selector. */
function coloursOf(selector: string): Readonly<Record<string, string>> {
  const from = css.indexOf(`${selector} {`)
  const block = css.slice(from, css.indexOf('}', from))
  return Object.fromEntries([...block.matchAll(/--([a-z0-9-]+):\s*(#[0-9a-f]{6})/g)].map(([, name, colour]) => [name!, colour!]))
}

const themes = {
  light: coloursOf(':root'),
  sunlight: coloursOf(':root[data-theme="sunlight"]'),
  dark: coloursOf(':root[data-theme="dark"]'),
}

/** What is read on what, and the least ratio there: 7 for what is read outdoors, 4.5 for any text, 3 for a line or mark that means something. */
const LEAST: Readonly<Record<string, Readonly<Record<string, number>>>> = {
  ink: { ground: 7, sheet: 7, tag: 7, wash: 7 },
  ink2: { ground: 4.5, sheet: 4.5, tag: 4.5, wash: 4.5 },
  dye: { ground: 4.5, sheet: 4.5, tag: 4.5 },
  chalk: { ground: 4.5, sheet: 4.5, tag: 4.5 },
  oxide: { ground: 4.5, sheet: 4.5, wash: 3 },
  rib: { sheet: 3 },
  'on-dye': { dye: 7 },
}

/** @source WCAG 2.2, relative luminance and contrast ratio. Provenance: memory */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const c = Number.parseInt(hex.slice(i, i + 2), 16) / 255
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4
  }) as [number, number, number]
  return 0.2126 * r + 0.7152 * g + 0.0722 * b
}

export function contrast(a: string, b: string): number {
  const [x, y] = [luminance(a), luminance(b)]
  return (Math.max(x, y) + 0.05) / (Math.min(x, y) + 0.05)
}

// WCAG 2.2, definition of contrast ratio: black on white is 21:1. Provenance: memory
test('black on white is 21 to 1, a colour on itself 1', () => {
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6)
  expect(contrast('#322a8c', '#322a8c')).toBe(1)
})

for (const [theme, colours] of Object.entries(themes))
  test(`every pair of the ${theme} theme stands apart as it must`, () => {
    expect(Object.keys(colours).length).toBe(11)
    for (const [on, grounds] of Object.entries(LEAST))
      for (const [ground, least] of Object.entries(grounds))
        expect(contrast(colours[on]!, colours[ground]!), `${on} on ${ground}`).toBeGreaterThanOrEqual(least)
  })

test('following the system into the dark gives the dark theme', () => {
  expect(coloursOf('  :root:not([data-theme])')).toEqual(themes.dark)
})
