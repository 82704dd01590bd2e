import type { MachineLine, MachineView, ThingLine } from '../worker/protocol.ts'

type Px = readonly [number, number]

const groups = (frame: HTMLElement, name: string): NodeListOf<SVGGElement> =>
  frame.querySelectorAll<SVGGElement>(`svg.drawn [data-thing="${CSS.escape(name)}"]`)

/**
 * Takes what is drawn under these names out of the drawing and onto a layer of its own, which can be moved without painting the drawing again.
 * `gone`: what is not drawn while it is in the hand.
 */
function lift(frame: HTMLElement, names: readonly string[], gone: readonly string[]): void {
  const layer = frame.querySelector('svg.hand-layer > g')
  if (layer === null || layer.childElementCount > 0) return
  for (const name of names) for (const group of groups(frame, name)) layer.append(group.cloneNode(true))
  for (const name of [...names, ...gone])
    for (const group of groups(frame, name)) {
      group.setAttribute('display', 'none')
      group.dataset.lifted = 'yes'
    }
}

/** The layer, and with it the button that stands over what was lifted. */
function shift(frame: HTMLElement, name: string, [dx, dy]: Px): void {
  const layer = frame.querySelector<SVGSVGElement>('svg.hand-layer')
  const button = frame.querySelector<HTMLElement>(`[data-choose="${CSS.escape(name)}"]`)
  for (const one of [layer, button]) if (one !== null) one.style.transform = `translate(${dx}px, ${dy}px)`
  if (button !== null) button.dataset.shifted = 'yes'
}

export function paintThing(frame: HTMLElement, { id }: ThingLine, by: Px): void {
  lift(frame, [id], [])
  shift(frame, id, by)
}

/** The machine's sign at its new place, its cords from where they leave the box to it. */
export function paintMachine(frame: HTMLElement, { drawnAs }: MachineLine, view: MachineView, [x, y]: Px): void {
  lift(frame, [drawnAs.sign], [drawnAs.words, ...drawnAs.cords])
  shift(frame, drawnAs.sign, [x - view.x - view.w / 2, y - view.y - view.h / 2])
  const begin = view.cordsFrom.length === 0 ? [view.from] : view.cordsFrom
  frame.querySelector('svg.cord-layer path')?.setAttribute('d', begin.map(([fx, fy]) => `M${fx} ${fy}L${x} ${y}`).join(''))
}

export function clearPaint(frame: HTMLElement): void {
  frame.querySelector('svg.hand-layer > g')?.replaceChildren()
  frame.querySelector('svg.cord-layer path')?.setAttribute('d', '')
  for (const button of frame.querySelectorAll<HTMLElement>('[data-shifted]')) {
    button.style.transform = ''
    delete button.dataset.shifted
  }
  for (const group of frame.querySelectorAll<SVGGElement>('svg.drawn [data-lifted]')) {
    group.removeAttribute('display')
    delete group.dataset.lifted
  }
}
