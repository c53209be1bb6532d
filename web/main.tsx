import { render } from 'solid-js/web'
import { App } from './App.tsx'
import { loadDictionary, startLanguage } from './state/language.ts'
import './style.css'

const dictionary = await loadDictionary(startLanguage())
render(() => <App dictionary={dictionary} />, document.getElementById('app')!)
