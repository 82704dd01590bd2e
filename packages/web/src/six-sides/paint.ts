import type { Moving } from './hand.ts'

const groups = (frame: HTMLElement, name: string): NodeListOf<SVGGElement> =>
  frame.querySelectorAll<SVGGElement>(`svg [data-thing="${CSS.escape(name)}"]`)

type Px = readonly [number, number]

const shift = (frame: HTMLElement, name: string, [dx, dy]: Px, pxPerMm: number): void => {
  for (const group of groups(frame, name)) {
    group.setAttribute('transform', `translate(${dx / pxPerMm} ${dy / pxPerMm})`)
    group.dataset.moved = 'yes'
  }
}

export const paintThing = (frame: HTMLElement, pxPerMm: number, id: string, by: Px): void => shift(frame, id, by, pxPerMm)

/** The machine's sign at its new place, its cords from where they leave the box to it. */
export function paintMachine(
  frame: HTMLElement,
  pxPerMm: number,
  { line, view }: Extract<Moving, { kind: 'machine' }>,
  [x, y]: Px,
): void {
  const by: Px = [x - view.x - view.w / 2, y - view.y - view.h / 2]
  const { sign, words, cords } = line.drawnAs
  shift(frame, sign, by, pxPerMm)
  for (const name of [words, ...cords])
    for (const group of groups(frame, name)) {
      group.dataset.moved = 'yes'
      group.setAttribute('display', 'none')
    }
  const cord = frame.querySelector<SVGPathElement>('svg .cord-in-hand')
  const begin = view.cordsFrom.length === 0 ? [view.from] : view.cordsFrom
  cord?.setAttribute('d', begin.map(([fx, fy]) => `M${fx} ${fy}L${x} ${y}`).join(''))
}

export function clearPaint(frame: HTMLElement): void {
  for (const group of frame.querySelectorAll<SVGGElement>('svg [data-moved]')) {
    group.removeAttribute('transform')
    group.removeAttribute('display')
    delete group.dataset.moved
  }
  frame.querySelector('svg .cord-in-hand')?.setAttribute('d', '')
}
