import { mount } from 'svelte'
import './styles/fonts.css'
import './styles/theme.css'
import './styles/controls.css'
import './styles/contrast.css'
import App from './App.svelte'
import { findHost, findShell } from './bridge/host.ts'

const target = document.getElementById('app')
if (!target) throw new Error('no #app')
export default mount(App, { target, props: { host: findHost(), shell: findShell() } })
