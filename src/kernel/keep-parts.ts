/** Run by the build: keeps what V8 compiled of the part that each kernel loads. */
import { keepPart } from './parts.js';

keepPart('cells');
