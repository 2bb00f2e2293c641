// The components that behave: by hand, by key and as a reader hears them.
import { cleanup, fireEvent, render, screen } from '@testing-library/svelte'
import { afterEach, describe, expect, it, vi } from 'vitest'
import e2 from '../../state/mock/view-e2.json'
import type { Form } from '../../state/form.svelte'
import type { Ask } from '../../worker/protocol'
import type { View } from '../../worker/view'
import Asks from './Asks.svelte'
import Confirm from './Confirm.svelte'
import NumberPad from './NumberPad.svelte'
import RatePlot from './RatePlot.svelte'
import Ring from './Ring.svelte'
import SaveKey from './SaveKey.svelte'
import Stepper from './Stepper.svelte'
import TailPad from './TailPad.svelte'
import Tank from './Tank.svelte'
import TwoValues from './TwoValues.svelte'

const view = e2 as unknown as View

// jsdom has no layout; the drawings then take their ordinary width.
vi.stubGlobal(
  'ResizeObserver',
  class {
    observe() {}
    unobserve() {}
    disconnect() {}
  },
)
afterEach(() => {
  cleanup()
  vi.useRealTimers()
})

describe('Stepper (WAI-ARIA spinbutton pattern)', () => {
  function make(value: string, more = {}) {
    const onvalue = vi.fn()
    const onpad = vi.fn()
    const { rerender } = render(Stepper, {
      label: 'Level',
      field: 'level',
      value,
      unit: 'quarts',
      step: 0.5,
      max: 20,
      from: 14,
      atMax: 'The tank holds 20.',
      onvalue,
      onpad,
      ...more,
    })
    return { onvalue, onpad, rerender, spin: screen.getByRole('spinbutton') }
  }
  it('steps by arrows, four by Page, to the ends by Home and End', async () => {
    const { onvalue, spin } = make('15')
    for (const [key, want] of [
      ['ArrowUp', '15.5'],
      ['ArrowDown', '14.5'],
      ['PageUp', '17'],
      ['PageDown', '13'],
      ['Home', '0'],
      ['End', '20'],
    ] as const) {
      await fireEvent.keyDown(spin, { key })
      expect(onvalue).toHaveBeenLastCalledWith(want)
    }
  })
  it('says its value and unit, and that nothing is given', () => {
    expect(make('15').spin.getAttribute('aria-valuetext')).toBe('15 quarts')
    cleanup()
    expect(make('').spin.getAttribute('aria-valuetext')).toBe('not given')
  })
  it('does not go over the brim and says why', async () => {
    const { onvalue, spin } = make('20')
    await fireEvent.keyDown(spin, { key: 'ArrowUp' })
    expect(onvalue).not.toHaveBeenCalled()
    expect(screen.getByRole('status').textContent).toBe('The tank holds 20.')
  })
  it('begins from the last level while nothing is written', async () => {
    const { onvalue, spin } = make('')
    await fireEvent.keyDown(spin, { key: 'ArrowDown' })
    expect(onvalue).toHaveBeenLastCalledWith('13.5')
  })
  it('is the only focus stop, and a figure opens the pad with it', async () => {
    const { onpad, spin } = make('15')
    for (const b of screen.getAllByRole('button')) expect(b.tabIndex).toBe(-1)
    await fireEvent.keyDown(spin, { key: '7' })
    expect(onpad).toHaveBeenCalledWith('7')
  })
  it('goes on by whole units while a key is held, and stops on release', async () => {
    vi.useFakeTimers()
    let value = '14.5'
    const props = { label: 'Level', field: 'level', unit: 'quarts', step: 0.5, max: 20, onpad: vi.fn() }
    const onvalue = (v: string) => {
      value = v
      void made.rerender({ ...props, value, onvalue })
    }
    const made = render(Stepper, { ...props, value, onvalue })
    const plus = screen.getByRole('button', { name: '0.5 quarts more' })
    await fireEvent.pointerDown(plus)
    expect(value).toBe('15')
    await vi.advanceTimersByTimeAsync(400)
    expect(value).toBe('16')
    await vi.advanceTimersByTimeAsync(167 * 2)
    expect(value).toBe('18')
    await fireEvent.pointerUp(plus)
    await vi.advanceTimersByTimeAsync(2000)
    expect(value).toBe('18')
  })
})

describe('NumberPad', () => {
  function make(value: string, more = {}) {
    const onvalue = vi.fn()
    const ondone = vi.fn()
    render(NumberPad, {
      label: 'Level',
      value,
      unit: 'quarts',
      rule: { figures: 3, decimals: 2 },
      onvalue,
      ondone,
      ...more,
    })
    return { onvalue, ondone, field: screen.getByRole('textbox') as HTMLInputElement }
  }
  const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }))

  it('adds figures and wipes the last', async () => {
    const { onvalue } = make('1')
    await press('5')
    expect(onvalue).toHaveBeenLastCalledWith('15')
    await press('Wipe the last figure')
    expect(onvalue).toHaveBeenLastCalledWith('')
  })
  it('refuses a second point, says why and keeps the figure', async () => {
    const { onvalue, field } = make('15.5')
    await press('point')
    expect(onvalue).not.toHaveBeenCalled()
    expect(field.value).toBe('15.5')
    expect(screen.getByRole('status').textContent).toBe('There is a point already.')
  })
  it('treats a keyboard and a paste like its own keys', async () => {
    const { onvalue, field } = make('15')
    await fireEvent.input(field, { target: { value: '15 l' } })
    expect(onvalue).not.toHaveBeenCalled()
    expect(field.value).toBe('15')
    await fireEvent.input(field, { target: { value: '15,5' } })
    expect(onvalue).toHaveBeenLastCalledWith('15.5')
  })
  it('keeps the system keyboard away while its own keys stand, and calls the right one when they do not', () => {
    expect(make('').field.inputMode).toBe('none')
    cleanup()
    const { field } = make('', { own: false })
    expect(field.inputMode).toBe('decimal')
    expect(field.type).toBe('text')
    expect(screen.queryByRole('button', { name: '5' })).toBeNull()
  })
  it('is done with Enter', async () => {
    const { ondone, field } = make('15')
    await fireEvent.keyDown(field, { key: 'Enter' })
    expect(ondone).toHaveBeenCalledOnce()
  })
})

describe('TailPad', () => {
  async function type(options: string[]) {
    const onvalue = vi.fn()
    const ondone = vi.fn()
    const tail = vi.fn(() => Promise.resolve({ options }))
    render(TailPad, { label: 'Tach', last: '540.9', value: '', unit: 'hours', tail, onvalue, ondone })
    const field = screen.getByRole('textbox')
    await fireEvent.input(field, { target: { value: '1' } })
    await fireEvent.input(field, { target: { value: '16' } })
    await vi.waitFor(() => expect(tail).toHaveBeenCalledWith('540.9', '16'))
    return { onvalue, ondone }
  }
  it('closes itself when two figures can mean one reading only', async () => {
    const { onvalue, ondone } = await type(['541.6'])
    await vi.waitFor(() => expect(ondone).toHaveBeenCalledOnce())
    expect(onvalue).toHaveBeenCalledWith('541.6')
  })
  it('shows both when the drum may have gone round', async () => {
    const { onvalue, ondone } = await type(['541.6', '551.6'])
    const second = await screen.findByRole('button', { name: '551.6' })
    expect(ondone).not.toHaveBeenCalled()
    await fireEvent.click(second)
    expect(onvalue).toHaveBeenCalledWith('551.6')
    expect(ondone).toHaveBeenCalledOnce()
  })
})

describe('Ring', () => {
  it('says side, direction and master rod, and each head by the words of the core', () => {
    render(Ring, { ring: view.ring, onchoose: vi.fn() })
    expect(screen.getByRole('group').getAttribute('aria-label')).toBe(view.ring.spoken)
    expect(screen.getAllByRole('button').map((b) => b.getAttribute('aria-label'))).toEqual(
      view.ring.heads.map((h) => h.spoken),
    )
  })
  it('says the other side when it is turned round', () => {
    render(Ring, { ring: view.ring, flipped: true, onchoose: vi.fn() })
    const label = screen.getByRole('group').getAttribute('aria-label') ?? ''
    expect(label).toContain('seen from the propeller')
    expect(label).toContain('anticlockwise')
  })
  it('is walked by arrows round the ring and by figures, with one tab stop', async () => {
    const onchoose = vi.fn()
    render(Ring, { ring: view.ring, chosen: 7, onchoose })
    const heads = screen.getAllByRole('button')
    expect(heads.map((h) => h.tabIndex)).toEqual([-1, -1, -1, -1, -1, -1, 0])
    const head = heads[6] as HTMLElement
    await fireEvent.keyDown(head, { key: 'ArrowRight' })
    expect(onchoose).toHaveBeenLastCalledWith(1)
    expect(document.activeElement).toBe(heads[0])
    await fireEvent.keyDown(head, { key: 'ArrowLeft' })
    expect(onchoose).toHaveBeenLastCalledWith(6)
    await fireEvent.keyDown(head, { key: '3' })
    expect(onchoose).toHaveBeenLastCalledWith(3)
    await fireEvent.keyDown(head, { key: '8' })
    expect(onchoose).toHaveBeenCalledTimes(3)
  })
})

describe('RatePlot', () => {
  it('speaks reading by reading, ends where the readings end', async () => {
    render(RatePlot, { plot: view.plot })
    const field = screen.getByRole('slider')
    const points = view.plot.points
    const said = () => field.getAttribute('aria-valuetext')
    await fireEvent.keyDown(field, { key: 'Home' })
    expect(said()).toBe(points[0]?.spoken)
    await fireEvent.keyDown(field, { key: 'ArrowRight' })
    expect(said()).toBe(points[1]?.spoken)
    await fireEvent.keyDown(field, { key: 'End' })
    await fireEvent.keyDown(field, { key: 'ArrowRight' })
    expect(said()).toBe(points[points.length - 1]?.spoken)
    expect(screen.getByText(view.plot.summary)).toBeTruthy()
  })
})

describe('Tank', () => {
  it('is set by keys like a stepper', async () => {
    const onlevel = vi.fn()
    render(Tank, { tank: view.tank, level: '15', onlevel })
    const slider = screen.getByRole('slider')
    await fireEvent.keyDown(slider, { key: 'ArrowUp' })
    expect(onlevel).toHaveBeenLastCalledWith('15.5')
    await fireEvent.keyDown(slider, { key: 'End' })
    expect(onlevel).toHaveBeenLastCalledWith(String(view.tank.capacity))
  })
})

describe('Asks', () => {
  const litres: Ask = {
    field: 'level',
    strength: 'unlikely',
    code: 'litres',
    words: 'Litres or quarts?',
    choices: [{ label: 'It was litres', set: { level: '14 l' } }],
  }
  it('asks at its own field only, and hands the answer on', async () => {
    const onset = vi.fn()
    render(Asks, {
      id: 'a',
      asks: [litres, { ...litres, field: 'added', code: 'x', words: 'Other' }],
      field: 'level',
      onset,
    })
    expect(screen.queryByText('Other')).toBeNull()
    await fireEvent.click(screen.getByRole('button', { name: 'It was litres' }))
    expect(onset).toHaveBeenCalledWith({ level: '14 l' })
  })
  it('says nothing about what is simply not typed yet', () => {
    render(Asks, {
      id: 'a',
      asks: [{ ...litres, strength: 'impossible', code: 'empty' }],
      field: 'level',
      onset: vi.fn(),
    })
    expect(screen.queryByText('Litres or quarts?')).toBeNull()
  })
})

describe('SaveKey', () => {
  const ask = (more: Partial<Ask>): Ask => ({
    field: 'level',
    strength: 'impossible',
    code: 'empty',
    words: 'What does the stick read?',
    ...more,
  })
  function make(asks: Ask[], body?: object) {
    const form = {
      checked: { asks, echo: 'Fifteen quarts', foretold: '', ...(body && { body }) },
      saving: false,
      trouble: null,
      wanted: '',
    } as unknown as Form
    const onsave = vi.fn()
    render(SaveKey, { form, onsave })
    return { form, onsave }
  }
  const page = (html: string) => {
    const main = document.createElement('main')
    main.innerHTML = html
    document.body.append(main)
    Element.prototype.scrollIntoView = () => undefined
    return main
  }
  afterEach(() => {
    document.querySelectorAll('main').forEach((m) => {
      m.remove()
    })
  })
  it('says the question, and a press opens what answers it', async () => {
    const main = page(
      `<div data-field="level"><button>less</button><div role="spinbutton" tabindex="0"></div></div>`,
    )
    const opened = vi.fn()
    main.querySelector('[role=spinbutton]')?.addEventListener('click', opened)
    const { form, onsave } = make([ask({})])
    const key = screen.getByRole('button', { name: /One question before it is saved/ })
    expect(key.textContent).toContain('What does the stick read?')
    await fireEvent.click(key)
    await vi.waitFor(() => {
      expect(opened).toHaveBeenCalledTimes(1)
    })
    expect(form.wanted).toBe('level')
    expect(onsave).not.toHaveBeenCalled()
  })
  it('leads to the answers where the question has some, and chooses none of them', async () => {
    const main = page(
      `<div data-field="hours"><button>Tach</button></div>
       <div class="asks"><div data-ask="hours_back"><p></p><button>Meter changed</button></div></div>`,
    )
    const chosen = vi.fn()
    main.querySelectorAll('button').forEach((b) => {
      b.addEventListener('click', chosen)
    })
    make([ask({ field: 'hours', code: 'hours_back', strength: 'unlikely', words: 'Before the last one.' })])
    await fireEvent.click(screen.getByRole('button', { name: /One question/ }))
    await vi.waitFor(() => {
      expect(document.activeElement?.textContent).toBe('Meter changed')
    })
    expect(chosen).not.toHaveBeenCalled()
  })
  it('counts the questions, the impossible first, and saves when there is none', async () => {
    make([
      ask({ field: 'hours', code: 'hours_jump', strength: 'unlikely', words: 'Far ahead.' }),
      ask({}),
      ask({ code: 'differs', strength: 'differs', words: 'Read again?' }),
    ])
    expect(screen.getByRole('button').textContent).toMatch(
      /2 questions before it is saved.*What does the stick read/s,
    )
    cleanup()
    const { onsave } = make([ask({ code: 'differs', strength: 'differs' })], {})
    await fireEvent.click(screen.getByRole('button', { name: /Save on this phone/ }))
    expect(onsave).toHaveBeenCalledTimes(1)
  })
})

describe('TwoValues', () => {
  it('shows both, prefers neither, and settles only with a reason', async () => {
    const onsettle = vi.fn()
    const others = [
      { key: 'aa:1', value: '0.60 qt/h', by: 'Ilse Varnham', day: '2 March 2025' },
      { key: 'bb:1', value: '0.70 qt/h', by: 'Tobin Askerly', day: '2 March 2025' },
    ]
    const setting = {
      field: 'ceiling',
      label: 'Oil ceiling',
      value: '',
      given: true,
      source: null,
      others,
      raw: null,
    }
    render(TwoValues, { setting, onsettle })
    for (const o of others) expect(screen.getByText(`${o.by}, ${o.day}`, { exact: false })).toBeTruthy()
    const second = screen.getByRole('button', { name: 'Settle on 0.70 qt/h' })
    await fireEvent.click(second)
    expect(onsettle).not.toHaveBeenCalled()
    await fireEvent.input(screen.getByRole('textbox'), { target: { value: 'the newer page' } })
    await fireEvent.click(second)
    expect(onsettle).toHaveBeenCalledWith('bb:1', 'the newer page')
  })
})

describe('Confirm', () => {
  it('wants the number typed when many lines are unsent', async () => {
    const onact = vi.fn()
    render(Confirm, {
      title: 't',
      gone: 'g',
      stays: 's',
      act: 'Sign out',
      keep: 'Stay',
      count: 12,
      onact,
      onkeep: vi.fn(),
    })
    await fireEvent.click(screen.getByRole('button', { name: 'Sign out' }))
    expect(onact).not.toHaveBeenCalled()
    await fireEvent.input(screen.getByRole('textbox'), { target: { value: '12' } })
    await fireEvent.click(screen.getByRole('button', { name: 'Sign out' }))
    expect(onact).toHaveBeenCalledOnce()
  })
})
