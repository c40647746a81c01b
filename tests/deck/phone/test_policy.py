"""What the page may do: nothing but show itself, whatever is put into it."""

import pytest

# each tries to reach out or to run what is not the page's own; says how it went
ATTEMPTS = {
    "fetch": "fetch('https://example.org/x').then(() => 'reached', (e) => 'refused')",
    "picture": """new Promise((done) => {
        const image = new Image();
        image.onload = () => done('reached');
        image.onerror = () => done('refused');
        image.src = 'https://example.org/x.png';
    })""",
    "picture in itself": """new Promise((done) => {
        const image = new Image();
        image.onload = () => done('reached');
        image.onerror = () => done('refused');
        image.src = 'data:image/gif;base64,R0lGODlhAQABAAAAACH5BAEKAAEALAAAAAABAAEAAAICTAEAOw==';
    })""",
    "socket": """new Promise((done) => {
        addEventListener('securitypolicyviolation', () => done('refused'), {once: true});
        try { new WebSocket('wss://example.org/'); } catch { done('refused'); }
        setTimeout(() => done('reached'), 2000);
    })""",
    "frame": """new Promise((done) => {
        addEventListener('securitypolicyviolation', () => done('refused'), {once: true});
        const frame = document.createElement('iframe');
        frame.onload = () => setTimeout(() => done('reached'), 300);
        frame.src = 'https://example.org/';
        document.body.append(frame);
    })""",
    "script": """new Promise((done) => {
        addEventListener('securitypolicyviolation', () => done('refused'), {once: true});
        const script = document.createElement('script');
        try { script.textContent = 'window.ran = true'; document.body.append(script); }
        catch { done('refused'); }
        setTimeout(() => done(window.ran ? 'reached' : 'refused'), 300);
    })""",
    "markup": """new Promise((done) => {
        try { document.body.innerHTML = '<b>x</b>'; done('reached'); } catch { done('refused'); }
    })""",
    "style": """new Promise((done) => {
        document.body.setAttribute('style', 'color: rgb(1, 2, 3)');
        done(getComputedStyle(document.body).color === 'rgb(1, 2, 3)' ? 'reached' : 'refused');
    })""",
}


@pytest.mark.parametrize("attempt", ATTEMPTS)
def test_it_is_refused(browser, address, attempt):
    """Also where there is a network: no request leaves the browser."""
    page = browser.new_page()
    asked = []
    page.route("**/*", lambda route: (asked.append(route.request.url), route.continue_()))
    page.goto(address)
    page.wait_for_selector("main[data-shows]")
    assert "refused" == page.evaluate(ATTEMPTS[attempt])
    page.close()

    assert [] == [url for url in asked if not url.startswith("file:")]


def test_an_older_reader_is_told(browser, address):
    """Where nothing can be unpacked, the page says so and still shows its cards."""
    page = browser.new_page()
    page.add_init_script("delete globalThis.DecompressionStream")
    page.goto(f"{address}#stuck")
    page.locator("#trouble").get_by_text("too old to unpack").wait_for()
    page.get_by_role("link", name="Cards", exact=True).click()
    page.locator(".index a", has_text="Recess stripped").click()
    page.get_by_role("heading", name="Recess stripped", exact=True).wait_for()
    page.close()


def test_without_javascript_the_cards_are_there(browser, address, few):
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(address)

    assert len(few) == page.locator("article.card:visible").count()
    assert page.get_by_text("Without JavaScript this page shows its cards only.").is_visible()
    assert not page.locator("nav").is_visible()
    page.locator(".index a", has_text="Recess worn").click()
    assert page.url.endswith("#card/recess-worn")
    context.close()
