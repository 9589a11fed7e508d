import { describe, expect, test, vi } from 'vitest'
import { fireEvent, render, screen } from '@testing-library/svelte'
import Bench from './NumberFieldBench.svelte'

const field = () => screen.getByLabelText<HTMLInputElement>('Radius')
async function type(text: string, key = 'Enter') {
  await fireEvent.focus(field())
  await fireEvent.input(field(), { target: { value: text } })
  await fireEvent.keyDown(field(), { key })
}

describe('number field', () => {
  test('takes an expression with units and shows it in the job’s unit', async () => {
    const onset = vi.fn()
    render(Bench, { value: 50, onset })
    expect(field().value).toBe('50')
    await type('3/8 in + 2')
    expect(onset).toHaveBeenCalledExactlyOnceWith(11.525)
  })

  test('refuses with a reason beside the field and keeps what was typed', async () => {
    const onset = vi.fn()
    render(Bench, { value: 50, onset })
    await type('3 kg')
    expect(onset).not.toHaveBeenCalled()
    expect(screen.getByRole('alert').textContent).toMatch(/a length is wanted/i)
    expect(field().getAttribute('aria-invalid')).toBe('true')
    expect(field().value).toBe('3 kg')
    await fireEvent.keyDown(field(), { key: 'Escape' })
    expect(field().value).toBe('50')
    expect(screen.queryByRole('alert')).toBeNull()
  })

  test('below its least: the limit is named', async () => {
    const onset = vi.fn()
    render(Bench, { value: 50, onset, min: 10 })
    await type('3')
    expect(screen.getByRole('alert').textContent).toBe('It must be at least 10 mm.')
  })

  test('arrow keys step, Shift by ten', async () => {
    const onset = vi.fn()
    render(Bench, { value: 50, onset })
    await fireEvent.keyDown(field(), { key: 'ArrowUp' })
    expect(onset).toHaveBeenLastCalledWith(51)
    await fireEvent.keyDown(field(), { key: 'ArrowDown', shiftKey: true })
    expect(onset).toHaveBeenLastCalledWith(40)
  })

  test('arrow keys step by a twentieth of an inch where inches are shown', async () => {
    const onset = vi.fn()
    render(Bench, { value: 50.8, onset, units: 'in' })
    await fireEvent.keyDown(field(), { key: 'ArrowUp' })
    expect(onset).toHaveBeenLastCalledWith(52.07)
  })

  test('unchanged text is no edit; empty is null only where that is allowed', async () => {
    const onset = vi.fn()
    const { unmount } = render(Bench, { value: 50, onset })
    await type('50')
    expect(onset).not.toHaveBeenCalled()
    await type('')
    expect(screen.getByRole('alert').textContent).toMatch(/number is wanted/)
    unmount()
    render(Bench, { value: 50, onset, optional: true })
    await type('')
    expect(onset).toHaveBeenCalledExactlyOnceWith(null)
  })

  test('inches are shown and read where inches are given', async () => {
    const onset = vi.fn()
    render(Bench, { value: 50.8, onset, units: 'in' })
    expect(field().value).toBe('2')
    await type('2 1/2')
    expect(onset).toHaveBeenCalledExactlyOnceWith(63.5)
  })

  test('a mixed number: refused in millimetres with what to type, read and said in inches', async () => {
    const onset = vi.fn()
    const { rerender } = render(Bench, { value: 50.8, onset, units: 'mm' })
    await type('3 1/4"')
    expect(onset).not.toHaveBeenCalled()
    expect(screen.getByRole('alert').textContent).toBe('This field takes millimetres: 3 1/4" is 82.55 mm.')
    await fireEvent.keyDown(field(), { key: 'Escape' })
    await rerender({ units: 'in' })
    await fireEvent.input(field(), { target: { value: '3 1/4"' } })
    expect(screen.getByText('= 3.25 in')).toBeDefined()
    await fireEvent.keyDown(field(), { key: 'Enter' })
    expect(onset).toHaveBeenCalledExactlyOnceWith(82.55)
  })

  test('the system is the one handed down, and follows when that changes', async () => {
    const onset = vi.fn()
    const { rerender } = render(Bench, { value: 50.8, onset, around: 'in' })
    expect(field().value).toBe('2')
    await rerender({ around: 'mm' })
    expect(field().value).toBe('50.8')
  })

  test('its own system goes before the one handed down', () => {
    render(Bench, { value: 50.8, onset: vi.fn(), units: 'mm', around: 'in' })
    expect(field().value).toBe('50.8')
  })
})
