import { render } from 'solid-js/web'
import { App } from './App.tsx'
import { layGround } from './state/ground.ts'
import { loadDictionary, startLanguage } from './state/language.ts'
import './style.css'
import './pour.css'

layGround()
const dictionary = await loadDictionary(startLanguage())
render(() => <App dictionary={dictionary} />, document.getElementById('app')!)
