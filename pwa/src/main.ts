// The page comes up first; the worker (storage, sending, the Go core) starts beside it and is not waited for.

import './opening.css'
import { mount } from 'svelte'
import App from './ui/App.svelte'
import { App as State } from './state/app.svelte'
import { type Link, workerLink } from './state/link'
import { scriptURL } from './state/trusted'
import workerUrl from './worker/worker.ts?worker&url'

async function link(): Promise<Link> {
  if (import.meta.env.DEV && new URLSearchParams(location.search).has('mock'))
    return (await import('./state/mock')).mockLink()
  return workerLink(new Worker(scriptURL(workerUrl), { type: 'module', name: 'linkrod' }))
}

const app = new State(await link())
const target = document.getElementById('app')
if (target) {
  target.replaceChildren()
  mount(App, { target, props: { app } })
}
void app.start()
void app.update.register()
