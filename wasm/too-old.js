// Only browsers that know no modules run this: they cannot open the page.
document.getElementById('opening').hidden = true;
document.getElementById('too-old').hidden = false;
