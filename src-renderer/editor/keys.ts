/** From key presses to actions. */
import type { Action, Actions } from '../state/actions.ts'

/** As actions name it: `Ctrl+Shift+s`, `ArrowUp`, `?`. */
export function keyName(
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'metaKey' | 'shiftKey' | 'altKey'> & {
    readonly code?: string
  },
): string {
  // With Alt some keyboards write another sign than the digit on the key.
  const digit = event.altKey ? /^Digit(\d)$/.exec(event.code ?? '')?.[1] : undefined
  const letter = event.key.length === 1
  const key = digit ?? (letter && event.ctrlKey ? event.key.toLowerCase() : event.key)
  const ctrl = event.ctrlKey || event.metaKey
  // Shift is part of the character already, unless Control makes a command of it.
  const shift = event.shiftKey && (!letter || ctrl)
  return `${ctrl ? 'Ctrl+' : ''}${event.altKey ? 'Alt+' : ''}${shift ? 'Shift+' : ''}${key}`
}

const TYPING = /^(input|textarea|select)$/i
/** What has arrow keys, Enter and Escape of its own while the focus is in it. */
const OWN_KEYS =
  'button, a, summary, dialog, [role=menu], [role=listbox], [role=tablist], [role=radiogroup], [role=toolbar], [role=region], [role=separator]'
const OWN = /^(?:Shift\+)?(?:Arrow\w+|Enter|Escape|Page\w+| )$/

export function handleKey(event: KeyboardEvent, actions: Actions, inDialog: boolean): void {
  if (event.defaultPrevented) return
  const name = keyName(event)
  const target = event.target instanceof HTMLElement ? event.target : null
  const typing = target !== null && (TYPING.test(target.tagName) || target.isContentEditable)
  // Nothing is being typed there that undo could mean instead.
  const settled = target !== null && (target.tagName === 'SELECT' || target.hasAttribute('data-settled'))
  const onPlate = target?.closest('[data-plate]') !== null && target !== null
  const command = name.startsWith('Ctrl+') || name.startsWith('Alt+') || /^F\d/.test(name)
  // The plate's keys hold wherever the focus is, but in fields and where the key means something of its own.
  const free =
    onPlate || (!typing && !(OWN.test(name) && target !== null && target.closest(OWN_KEYS) !== null))
  const found = (Object.values(actions) as Action[]).find((a) => {
    if (!a.keys.includes(name)) return false
    if (a.onPlate) return free
    return command ? !(typing && !settled && /^Ctrl\+(Shift\+)?[zy]$/.test(name)) : !typing
  })
  // Not behind a dialog, nor left to the browser there, which would save the page.
  if (!found || (inDialog && !command)) return
  event.preventDefault()
  if (inDialog) return
  if (found.enabled()) found.run()
}
