// What the page does itself: keys for fingers, the focus on the wizard, and a way to go on after it has closed.
"use strict";

const typing = () => document.querySelector(".xterm-helper-textarea");

function press(button) {
    const code = Number(button.dataset.code);
    const key = { key: button.dataset.press, code: button.dataset.press, keyCode: code, which: code, bubbles: true };
    typing()?.dispatchEvent(new KeyboardEvent("keydown", key));
    typing()?.focus();
}

// What the wizard gives out is saved on this device. The toolkit's script would open a window for it, and browsers block
// those; the link stays, for a browser that wants a finger on it.
window.open = (address) => {
    const link = document.querySelector("#delivered");
    link.href = address;
    link.hidden = false;
    link.click();
};

window.addEventListener("load", () => {
    document.querySelectorAll("[data-press]").forEach((each) => {
        // The hand stays on the wizard, so that the keyboard on the glass does not go away at each touch.
        each.addEventListener("pointerdown", (event) => event.preventDefault());
        each.addEventListener("click", () => press(each));
    });
    // Only a change of the window is heeded by the toolkit's script, and the room can change without one.
    new ResizeObserver(() => window.dispatchEvent(new Event("resize"))).observe(document.querySelector("#terminal"));
    document.querySelector("[data-again]").addEventListener("click", () => window.location.reload());
    new MutationObserver((_, seen) => {
        if (document.body.classList.contains("-closed")) {
            seen.disconnect();
            document.querySelector("[data-again]").focus();
        } else if (document.body.classList.contains("-first-byte")) {
            typing()?.focus();
        }
    }).observe(document.body, { attributeFilter: ["class"] });
});
