using WaterScript.Cli.LanguageServer.Features;
using WaterScript.Cli.LanguageServer.Files;
using WaterScript.Cli.LanguageServer.Protocol;
using WaterScript.Linting.Engine;

namespace WaterScript.Cli.LanguageServer;

/// <summary>
/// Hands findings over after each change, of the latest state only: one thread works, and what came meanwhile counts once it is free. What reading finds comes
/// at once; what a check finds comes when it is done, and until then it is missing, never stale. A check of what has changed meanwhile is stopped.
/// </summary>
internal sealed class FindingsPublisher : IDisposable
{
    /// <summary>What takes longer is done once nobody types, and reading is reported before it.</summary>
    public static readonly TimeSpan Quick = TimeSpan.FromMilliseconds(200);

    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(300);
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    /// <summary>A name at the cursor that nobody knows is reported once nobody has typed for so long.</summary>
    private static readonly TimeSpan Unfinished = TimeSpan.FromMilliseconds(800);

    private readonly Client _client;
    private readonly TimeSpan _quick;
    private readonly Lock _lock = new();
    private readonly AutoResetEvent _changed = new(initialState: false);
    private readonly HashSet<string> _published = new(StringComparer.Ordinal);
    private (Snapshot Workspace, ServerState State, int Number)? _latest;
    private CancellationTokenSource _stop = new();
    private string? _shownProgress;
    private TimeSpan _lastTook;
    private int _tokens;
    private bool _isOver;

    /// <summary>Makes one.</summary>
    /// <param name="client">Gets the findings.</param>
    /// <param name="quick">What takes longer is done once nobody types.</param>
    public FindingsPublisher(Client client, TimeSpan quick)
    {
        (_client, _quick) = (client, quick);
        new Thread(Work) { IsBackground = true, Name = "findings" }.Start();
    }

    /// <summary>Has findings handed over of how things are now.</summary>
    public void Publish(Snapshot workspace, ServerState state)
    {
        lock (_lock)
        {
            _latest = (workspace, state, (_latest?.Number ?? 0) + 1);
            _stop.Cancel();
            _stop = new CancellationTokenSource();
        }

        _changed.Set();
    }

    /// <summary>Somebody does not want to wait for a check: nothing is checked until the next change.</summary>
    public void Stop(string token)
    {
        lock (_lock)
        {
            if (token == _shownProgress) _stop.Cancel();
        }
    }

    /// <inheritdoc/>
    public void Dispose()
    {
        _isOver = true;
        lock (_lock)
        {
            _stop.Cancel();
            _stop.Dispose();
        }

        _changed.Set();
    }

    private void Work()
    {
        while (!_isOver)
        {
            _changed.WaitOne();
            if (_isOver || Latest() is not { } latest) continue;
            try
            {
                Publish(latest.Workspace, latest.State, () => Latest()?.Number != latest.Number || _isOver);
            }
            catch (ReaderGoneException)
            {
                return;
            }
#pragma warning disable CA1031 // Whatever it was, the next change is looked at.
            catch (Exception problem)
#pragma warning restore CA1031
            {
                if (!Reported(problem)) return;
            }
        }
    }

    private bool Reported(Exception problem)
    {
        try
        {
            _client.Notify("window/logMessage", new LogMessageParams(1, $"the check failed: {problem.GetType().Name}"),
                ProtocolContext.Default.LogMessageParams);
            return true;
        }
        catch (ReaderGoneException)
        {
            return false;
        }
    }

    private (Snapshot Workspace, ServerState State, int Number)? Latest()
    {
        lock (_lock) return _latest;
    }

    private void Publish(Snapshot workspace, ServerState state, Func<bool> isStale)
    {
        CancellationToken stop;
        lock (_lock)
        {
            if (isStale()) return;
            stop = _stop.Token;
        }

        SiteAnalysis[] sites = [.. SitesOf(workspace, state)];
        if (_lastTook > _quick && sites.Any(site => site.CheckIfKnown is null))
        {
            SendRead(sites, workspace, state, isStale);
            if (WaitsInVain(Rest, isStale)) return;
        }

        var checks = Task.Run(() => Checked(sites, stop), CancellationToken.None);
        if (!checks.Wait(_quick)) SendRead(sites, workspace, state, isStale);
        WithProgress(checks, workspace, state);
        if (checks.Result is not { } done || isStale()) return;
        if (!state.AsksForFindings) SendInTwo(() => Found(done, workspace, state), workspace, isStale);
        Renew(workspace, state);
    }

    /// <summary>What reading finds, ahead of a check that takes its time.</summary>
    private void SendRead(SiteAnalysis[] sites, Snapshot workspace, ServerState state, Func<bool> isStale)
    {
        if (!state.AsksForFindings) SendWithoutUnfinished(Read(sites, workspace, state), workspace, isStale);
    }

    private void SendInTwo(Func<DocumentFindings> found, Snapshot workspace, Func<bool> isStale)
    {
        if (SendWithoutUnfinished(found(), workspace, isStale) && !WaitsInVain(Unfinished, isStale)) Send(found(), isStale);
    }

    /// <summary>A name that somebody is still writing is no mistake yet.</summary>
    /// <returns>Whether there was one.</returns>
    private bool SendWithoutUnfinished(DocumentFindings found, Snapshot workspace, Func<bool> isStale)
    {
        var isUnfinished = false;
        foreach (var document in workspace.Documents.Values) isUnfinished |= found.HideUnfinished(document);
        Send(found, isStale);
        return isUnfinished;
    }

    /// <summary>Waits; true where something has changed meanwhile.</summary>
    private bool WaitsInVain(TimeSpan time, Func<bool> isStale)
    {
        var isChanged = _changed.WaitOne(time);
        if (isChanged) _changed.Set();
        return isChanged || isStale();
    }

    /// <summary>Checks sites; null where that was stopped.</summary>
    private List<CheckedSite>? Checked(IEnumerable<SiteAnalysis> sites, CancellationToken stop)
    {
        var watch = System.Diagnostics.Stopwatch.StartNew();
        var done = new List<CheckedSite>();
        try
        {
            foreach (var site in sites) done.Add(site.Check(stop));
        }
        catch (OperationCanceledException)
        {
            // It took at least so long.
            _lastTook = watch.Elapsed > _lastTook ? watch.Elapsed : _lastTook;
            return null;
        }

        _lastTook = watch.Elapsed;
        return done;
    }

    private void WithProgress(Task checks, Snapshot workspace, ServerState state)
    {
        if (checks.Wait(Patience)) return;
        SayChecked(workspace, state);
        if (!state.ShowsProgress)
        {
            checks.Wait();
            return;
        }

        var token = $"check-{++_tokens}";
        _client.Request("window/workDoneProgress/create", new ProgressCreateParams(token), ProtocolContext.Default.ProgressCreateParams);
        _client.Notify("$/progress", new ProgressParams(token, new ProgressValue("begin", "Checking", null, Cancellable: true)),
            ProtocolContext.Default.ProgressParams);
        lock (_lock) _shownProgress = token;
        checks.Wait();
        _client.Notify("$/progress", new ProgressParams(token, new ProgressValue("end", null, null, null)), ProtocolContext.Default.ProgressParams);
    }

    private static IEnumerable<SiteAnalysis> SitesOf(Snapshot workspace, ServerState state)
    {
        var open = workspace.Documents.Values.Where(document => document.Source.Text.Length <= Snapshot.MostCharacters)
            .SelectMany(document => workspace.SitesOf(document.Path)).DistinctBy(site => site.Path);
        return state.ChecksWorkspace ? open.Concat(workspace.Roots.Select(workspace.SiteAt).OfType<SiteAnalysis>()).DistinctBy(site => site.Path) : open;
    }

    /// <summary>What is known before anything is checked.</summary>
    private static DocumentFindings Read(IEnumerable<SiteAnalysis> sites, Snapshot workspace, ServerState state) =>
        Found(sites.Select(site => site.CheckIfKnown ?? new CheckedSite(site.Root.Path, site.Reading, Lint: null)), workspace, state);

    private static DocumentFindings Found(IEnumerable<CheckedSite> sites, Snapshot workspace, ServerState state)
    {
        var findings = new DocumentFindings(workspace, state);
        foreach (var document in workspace.Documents.Values)
        {
            findings.ListOf(document.Uri);
            if (document.Source.Text.Length > Snapshot.MostCharacters) findings.AddTooLarge(document);
        }

        foreach (var site in sites) findings.Add(site);
        return findings;
    }

    private void Send(DocumentFindings findings, Func<bool> isStale)
    {
        if (isStale()) return;
        var gone = _published.ToHashSet();
        foreach (var (uri, version, items) in findings.All)
        {
            gone.Remove(uri);
            _published.Add(uri);
            _client.Notify("textDocument/publishDiagnostics", new PublishParams(uri, version, items), ProtocolContext.Default.PublishParams);
        }

        foreach (var uri in gone)
        {
            _published.Remove(uri);
            _client.Notify("textDocument/publishDiagnostics", new PublishParams(uri, null, []), ProtocolContext.Default.PublishParams);
        }
    }

    /// <summary>What is shown of a file beyond the protocol of all editors may be asked for again.</summary>
    private void SayChecked(Snapshot workspace, ServerState state)
    {
        if (!state.KnowsChecked) return;
        foreach (var document in workspace.Documents.Values.OrderBy(document => document.Uri, StringComparer.Ordinal))
            _client.Notify(NightFeatures.Checked, new DocumentParams(new DocumentId(document.Uri)), ProtocolContext.Default.DocumentParams);
    }

    /// <summary>What rests on a check is asked for again.</summary>
    private void Renew(Snapshot workspace, ServerState state)
    {
        SayChecked(workspace, state);
        if (state.RenewsHints) _client.Request("workspace/inlayHint/refresh");
        if (state.RenewsLenses) _client.Request("workspace/codeLens/refresh");
    }
}
