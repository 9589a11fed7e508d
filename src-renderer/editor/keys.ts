/** From key presses to actions. */
import type { Action, Actions } from '../state/actions.ts'

/** As actions name it: `Ctrl+Shift+s`, `ArrowUp`, `?`. */
export function keyName(
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'>,
): string {
  const letter = event.key.length === 1
  const key = letter && event.ctrlKey ? event.key.toLowerCase() : event.key
  const ctrl = event.ctrlKey || event.metaKey
  // Shift is part of the character already, unless Control makes a command of it.
  const shift = event.shiftKey && (!letter || ctrl)
  return `${ctrl ? 'Ctrl+' : ''}${event.altKey ? 'Alt+' : ''}${shift ? 'Shift+' : ''}${key}`
}

const TYPING = /^(input|textarea|select)$/i

export function handleKey(event: KeyboardEvent, actions: Actions, inDialog: boolean): void {
  if (event.defaultPrevented) return
  const name = keyName(event)
  const target = event.target instanceof HTMLElement ? event.target : null
  const typing = target !== null && (TYPING.test(target.tagName) || target.isContentEditable)
  const onPlate = target?.closest('[data-plate]') !== null && target !== null
  const command = name.startsWith('Ctrl+') || /^F\d/.test(name)
  const found = (Object.values(actions) as Action[]).find((a) => {
    if (!a.keys.includes(name)) return false
    if (a.onPlate) return onPlate
    return command ? !(typing && /^Ctrl\+(Shift\+)?[zy]$/.test(name)) : !typing && (onPlate || name === '?')
  })
  // Not behind a dialog, nor left to the browser there, which would save the page.
  if (!found || (inDialog && !command)) return
  event.preventDefault()
  if (inDialog) return
  if (found.enabled()) found.run()
}
