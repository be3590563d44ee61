/** The script of the deck sheet's page. */
import { DeckPage } from './deck-page.js';
import { browserCabinet, SheetStore } from './sheet-store.js';

const store = new SheetStore(browserCabinet());
const theme = store.setting('theme', '');
if (theme !== '') document.documentElement.setAttribute('data-ch-theme', theme);
new DeckPage(document.getElementById('deck') as HTMLElement, store);
// Asks the browser not to drop what is kept when room runs short; some pages may not ask.
navigator.storage?.persist?.().catch(() => false);
