import { HATCHES, type Hatch, INKS, type Ink } from './hatches.ts'
import { LINES, type LineMeaning } from './lines.ts'
import type { Item, Point, Renderer, Scene } from './scene.ts'
import { MARK_PATHS } from './verdict-marks.ts'

/** The drawing as SVG in millimetres. Same scene, same bytes: no clock, no ids but the names of hatches. */
export const svg: Renderer = { mimeType: 'image/svg+xml', render }

function render(scene: Scene): string {
  const [width, height] = scene.sizeMm
  const hatches = [...new Set(scene.items.flatMap(hatchOf))].sort()
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${mm(width)}mm" height="${mm(height)}mm" viewBox="0 0 ${mm(width)} ${mm(height)}" role="img">`,
    `<title>${escaped(scene.said)}</title>`,
    hatches.length > 0 ? `<defs>${hatches.map(patternOf).join('')}</defs>` : '',
    ...scene.items.map(itemOf),
    '</svg>',
  ]
    .filter((part) => part !== '')
    .join('\n')
}

/** A hundredth of a millimetre: finer than any printer, and the same on every machine. */
export function mm(value: number): string {
  const rounded = Math.round(value * 100) / 100
  return String(Object.is(rounded, -0) ? 0 : rounded)
}

function hatchOf(item: Item): readonly Hatch[] {
  if (item.kind !== 'line' && item.kind !== 'circle') return []
  return item.hatch === undefined || item.hatch in FILLS ? [] : [item.hatch]
}

const idOf = (hatch: Hatch): string => `hatch-${hatch.replace(/ /g, '-')}`

function patternOf(hatch: Hatch): string {
  const style = HATCHES[hatch as keyof typeof HATCHES]
  const size = mm(style.spacingMm)
  const inner = style.dots
    ? `<circle cx="${mm(style.spacingMm / 2)}" cy="${mm(style.spacingMm / 2)}" r="${mm(style.widthMm / 2)}" fill="#000"/>`
    : `<path d="M0 ${mm(style.spacingMm / 2)}H${size}" stroke="#000" stroke-width="${mm(style.widthMm)}"/>`
  const turn = style.angleDeg === 0 ? '' : ` patternTransform="rotate(${mm(-style.angleDeg)})"`
  return `<pattern id="${idOf(hatch)}" width="${size}" height="${size}" patternUnits="userSpaceOnUse"${turn}>${inner}</pattern>`
}

function itemOf(item: Item): string {
  switch (item.kind) {
    case 'line':
      return `<path d="${[item.pointsMm, ...(item.moreMm ?? [])].map((points) => pathOf(points, item.closed)).join('')}"${fillOf(item.hatch)}${strokeOf(item.line)}/>`
    case 'circle':
      return `<circle cx="${mm(item.atMm[0])}" cy="${mm(item.atMm[1])}" r="${mm(item.radiusMm)}"${fillOf(item.hatch)}${strokeOf(item.line)}/>`
    case 'arc': {
      const from = onCircle(item.atMm, item.radiusMm, item.fromDeg)
      const to = onCircle(item.atMm, item.radiusMm, item.toDeg)
      const sweep = (((item.toDeg - item.fromDeg) % 360) + 360) % 360
      const radius = mm(item.radiusMm)
      return `<path d="M${mm(from[0])} ${mm(from[1])}A${radius} ${radius} 0 ${sweep > 180 ? 1 : 0} 1 ${mm(to[0])} ${mm(to[1])}" fill="none"${strokeOf(item.line)}/>`
    }
    case 'text': {
      const [x, y] = item.atMm
      const turn = item.turnDeg === 0 ? '' : ` transform="rotate(${mm(item.turnDeg)} ${mm(x)} ${mm(y)})"`
      // Drawn twice, first as clear ground: not every reader of SVG paints a stroke behind its letters.
      const ground = ' stroke="#fff" stroke-width="1.1" stroke-linejoin="round"'
      const anchor = item.anchor === 'start' ? '' : ` text-anchor="${item.anchor}"`
      const drawn = (fill: string, extra: string): string =>
        `<text x="${mm(x)}" y="${mm(y)}" font-size="${mm(item.heightMm)}" ${LETTERING}${item.strong ? ' font-weight="600"' : ''}${anchor} fill="${fill}"${extra}${turn}>${escaped(item.text)}</text>`
      return item.halo ? drawn('#fff', ground) + drawn('#000', '') : drawn('#000', '')
    }
    case 'mark': {
      const [x, y] = item.atMm
      const scale = item.sizeMm / 16
      const paths = MARK_PATHS[item.mark].map((p) =>
        p.filled
          ? `<path d="${p.d}" fill="#000"/>`
          : `<path d="${p.d}" fill="none" stroke="#000" stroke-width="${p.strokeWidth}"/>`,
      )
      const ground = '<path d="M-2-2H18V18H-2z" fill="#fff"/>'
      return `<g transform="translate(${mm(x - item.sizeMm / 2)} ${mm(y - item.sizeMm / 2)}) scale(${scale.toFixed(4)})">${ground}${paths.join('')}</g>`
    }
  }
}

/** The web serves the face as one family, the type setter as a width of “Barlow”: both are named, then the text face for Greek. */
const LETTERING = `font-family="'Barlow Semi Condensed', Barlow, 'Source Sans 3', 'Noto Sans Math'" font-stretch="semi-condensed"`

function onCircle([x, y]: Point, radiusMm: number, deg: number): Point {
  const rad = (deg * Math.PI) / 180
  return [x + radiusMm * Math.cos(rad), y + radiusMm * Math.sin(rad)]
}

function pathOf(points: readonly Point[], closed: boolean): string {
  return `${points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'}${mm(x)} ${mm(y)}`).join('')}${closed ? 'z' : ''}`
}

function fillOf(hatch: Hatch | undefined): string {
  if (hatch === undefined) return ' fill="none"'
  return FILLS[hatch as keyof typeof FILLS] ?? ` fill="url(#${idOf(hatch)})"`
}

const inked = (step: Ink): string => ` fill="#000" fill-opacity="${INKS[step]}"`

/** Fills that are no pattern. */
const FILLS: Readonly<Record<Exclude<Hatch, keyof typeof HATCHES>, string>> = {
  blank: ' fill="#fff"',
  solid: ' fill="#000"',
  'ink 1': inked('ink 1'),
  'ink 2': inked('ink 2'),
  'ink 3': inked('ink 3'),
  'ink 4': inked('ink 4'),
  'ink 5': inked('ink 5'),
}

function strokeOf(meaning: LineMeaning | 'none'): string {
  if (meaning === 'none') return ''
  const { widthMm, dashMm, round } = LINES[meaning]
  const dash = dashMm.length > 0 ? ` stroke-dasharray="${dashMm.map(mm).join(' ')}"` : ''
  return ` stroke="#000" stroke-width="${mm(widthMm)}"${dash}${round ? ' stroke-linecap="round"' : ''}`
}

function escaped(words: string): string {
  return words.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;')
}
