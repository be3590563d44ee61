"""jupyter_kernel_test (PyPI, 0.7.0) with samples for this kernel.

The pager is not supported: the protocol has declared payloads deprecated, and documentation comes by
inspection instead.
"""

import unittest

import jupyter_kernel_test as jkt


class CockedHatTests(jkt.KernelTests):
    kernel_name = "cocked-hat"
    language_name = "typescript"
    file_extension = ".ts"
    code_hello_world = "console.log('hello, world')"
    code_stderr = "console.error('off the arc')"
    completion_samples = [
        {"text": "Math.sqr", "matches": {"sqrt"}},
        {"text": "'°′″🧭'.charCodeA", "matches": {"charCodeAt"}},
    ]
    complete_code_samples = ["1 + 1", "const a = { b: 1 };", "for (const x of []) { x }", "// note"]
    incomplete_code_samples = ["function f(a: number) {", "const s = `open", "[1, 2,", "1 +", "/* open"]
    invalid_code_samples = ["const = 5;", "1 2", "let 3x", ")"]
    code_generate_error = "throw new RangeError('altitude above 90°')"
    code_execute_result = [
        {"code": "6 * 7", "result": "42"},
        {"code": "'cocked' + ' hat'", "result": "'cocked hat'"},
        {"code": "[1, 2].map((x) => x * x)", "result": "[ 1, 4 ]"},
    ]
    code_display_data = [
        {"code": "display.html('<b>fix</b>')", "mime": "text/html"},
        {"code": "display.svg('<svg xmlns=\"http://www.w3.org/2000/svg\"/>')", "mime": "image/svg+xml"},
        {"code": "display({ a: 1 })", "mime": "text/plain"},
    ]
    code_history_pattern = "6*"
    supported_history_operations = ("tail", "range", "search")
    code_inspect_sample = "Math.sqrt"
    code_clear_output = "console.log('a'); display.clear()"


class WelcomeTests(jkt.IopubWelcomeTests):
    kernel_name = "cocked-hat"
    support_iopub_welcome = True


if __name__ == "__main__":
    unittest.main()
